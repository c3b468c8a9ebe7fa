"""Jointledger: reads free-text joint exam notes into a ledger, and audits the ledger against a profile.

    import jointledger

    audit = jointledger.audit("Left knee: no effusion, flexion 120.", profile="complaint")
    for gap in audit.gaps:
        print(gap.prompt)
    print(audit.notice)

`read` and `audit` take one note, `read_all` and `audit_all` any number of them, `entries` and `gaps` a DataFrame of
notes (pandas, polars, Arrow; needs pyarrow). All of them use the words and rules that came with the module; an `Engine`
of your own has a site's words and rules, too.

It audits documentation, not care, and makes no diagnosis. Show `Audit.notice` with what you show of an audit. Note text
goes nowhere: not to files, logs or the network, and into no exception.
"""

from jointledger._core import VERSION as __version__
from jointledger._engine import Engine
from jointledger._errors import DataError, Error, NoteError, ProfileError
from jointledger._functions import audit, audit_all, default_engine, entries, gaps, profiles, read, read_all
from jointledger._profiles import Expectation, Profile
from jointledger._results import (
    Audit,
    Complaint,
    Credit,
    Degrees,
    Entry,
    Gap,
    Grade,
    Inconsistency,
    Ledger,
    Span,
)

__all__ = [
    "Audit",
    "Complaint",
    "Credit",
    "DataError",
    "Degrees",
    "Engine",
    "Entry",
    "Error",
    "Expectation",
    "Gap",
    "Grade",
    "Inconsistency",
    "Ledger",
    "NoteError",
    "Profile",
    "ProfileError",
    "Span",
    "__version__",
    "audit",
    "audit_all",
    "default_engine",
    "entries",
    "gaps",
    "profiles",
    "read",
    "read_all",
]
