"""coldtally: which vaccine doses were where, what temperatures they have been through, and which must not be used.

One :class:`Ledger` is one site's file. Post entries (:mod:`coldtally.entries`, or mappings in the wire form), ask for answers
(:mod:`coldtally.answers`), catch refusals (:mod:`coldtally.errors`). NumPy, pandas and Matplotlib (:mod:`coldtally.plot`) are imported
only when they are asked for.

Lists support, and do not replace, the manufacturer's and the health department's guidance, local rules and licensed judgement.
"""
from ._core import __version__, caution, review_caution
from .answers import *
from .answers import __all__ as _answers
from .entries import *
from .entries import __all__ as _entries
from .errors import *
from .errors import __all__ as _errors
from .ledger import *
from .ledger import __all__ as _ledger

__all__ = ["__version__", "caution", "review_caution", *_answers, *_entries, *_errors, *_ledger]
