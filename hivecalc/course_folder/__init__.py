"""Where a learner works: a folder of their own with copies of the lessons, and JupyterLab on it.

`folder` says what belongs to it, `copying` makes it and brings it up to date, `serving` shows it.

The originals stay clean. A newer original takes the place of a copy only while the learner has not
changed that copy; otherwise it is laid beside it. Running a notebook changes nothing. What was
copied is kept in a manifest in the folder; a manifest that cannot be trusted counts for nothing,
and every file is then the learner's.

Lessons find the learner's hive file by the environment variable HIVECALC_HIVE, which holds its
whole path and is set for every kernel that is started from here.
"""

from hivecalc.course_folder.folder import FOLDERS, PLACES, originals, worked_in

__all__ = ["FOLDERS", "PLACES", "originals", "worked_in"]
