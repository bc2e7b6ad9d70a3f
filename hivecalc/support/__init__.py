"""Files written whole, locks, faults listed at once, harmless text, TOML: no bee in it."""
