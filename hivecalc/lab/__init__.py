"""What JupyterLab needs for the lessons: its start, its settings, and an extension."""
