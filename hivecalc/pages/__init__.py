"""What a lesson says in words, tables and pictures: plain functions of the hive, no widgets."""
