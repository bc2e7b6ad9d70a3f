"""Where a learner works: a folder of their own with copies of the lessons, and JupyterLab on it.

The originals stay clean. A newer original takes the place of a copy only while the learner has not
changed that copy; otherwise it is laid beside it. To run a notebook is no change. What was copied
is kept in a manifest in the folder; a manifest that cannot be trusted counts for nothing, and every
file is then the learner's.

Where the learner stopped in each lesson is kept in the folder too, and there it opens again.

Lessons find the learner's hive file by the environment variable HIVECALC_HIVE, which holds its
whole path and is set for every kernel that is started from here.
"""

from hivecalc.course_folder.addresses import Address, running
from hivecalc.course_folder.copying import (
    FOLDER_VARIABLE,
    HIVE_FILE,
    Course,
    prepare,
    report,
    usual_folder,
)
from hivecalc.course_folder.given import MANIFEST, Prints, manifest, prints
from hivecalc.course_folder.lessons import FOLDERS, originals
from hivecalc.course_folder.places import PLACES, worked_in
from hivecalc.course_folder.serving import (
    HIVE_VARIABLE,
    lab_command,
    lab_environment,
    run_lab,
    shows_browser,
)

__all__ = [
    "FOLDERS",
    "FOLDER_VARIABLE",
    "HIVE_FILE",
    "HIVE_VARIABLE",
    "MANIFEST",
    "PLACES",
    "Address",
    "Course",
    "Prints",
    "lab_command",
    "lab_environment",
    "manifest",
    "originals",
    "prepare",
    "prints",
    "report",
    "run_lab",
    "running",
    "shows_browser",
    "usual_folder",
    "worked_in",
]
