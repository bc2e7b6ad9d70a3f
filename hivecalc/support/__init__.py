"""Files written whole, locks, faults told at once, harmless text, TOML: no bee in it."""
