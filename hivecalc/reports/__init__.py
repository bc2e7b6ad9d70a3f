"""Reports, a module a subject: pieces, sizes, rules, verdicts, a plan, the saw, warmth, wood.

Each makes content (`hivecalc.document`) that the commands, the lessons and the hive book show; to
add a fact to a report, one module here is edited. Import the module that is meant:
some are slow to load.
"""
