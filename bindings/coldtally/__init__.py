"""coldtally: which vaccine doses were where, what temperatures they have been through, and which must not be used.

One :class:`Ledger` is one site's file. Post entries (:mod:`coldtally.entries`, :mod:`coldtally.programme`,
:mod:`coldtally.duties`, or mappings in the wire form) or everyday work in a few words (:mod:`coldtally.work`), ask for
answers (:mod:`coldtally.answers`, :mod:`~coldtally.fhir`, :mod:`~coldtally.handovers`, :mod:`~coldtally.incidents`,
:mod:`~coldtally.journeys`, :mod:`~coldtally.stewardship`, :mod:`~coldtally.upkeep`), catch refusals
(:mod:`coldtally.errors`). NumPy, pandas and Matplotlib (:mod:`coldtally.plot`) are imported only when they are asked
for.

Lists support, and do not replace, the manufacturer's and the health department's guidance, local rules and licensed
judgement."""
from ._core import __version__, caution, review_caution
from .answers import *
from .answers import __all__ as _answers
from .columns import *
from .columns import __all__ as _columns
from .drafts import *
from .drafts import __all__ as _drafts
from .duties import *
from .duties import __all__ as _duties
from .entries import *
from .entries import __all__ as _entries
from .errors import *
from .errors import __all__ as _errors
from .fhir import *
from .fhir import __all__ as _fhir
from .handovers import *
from .handovers import __all__ as _handovers
from .incidents import *
from .incidents import __all__ as _incidents
from .journeys import *
from .journeys import __all__ as _journeys
from .ledger import *
from .ledger import __all__ as _ledger
from .logger import *
from .logger import __all__ as _logger
from .programme import *
from .programme import __all__ as _programme
from .stewardship import *
from .stewardship import __all__ as _stewardship
from .upkeep import *
from .upkeep import __all__ as _upkeep

__all__ = [
    "__version__",
    "caution",
    "review_caution",
    *_answers,
    *_columns,
    *_drafts,
    *_duties,
    *_entries,
    *_errors,
    *_fhir,
    *_handovers,
    *_incidents,
    *_journeys,
    *_ledger,
    *_logger,
    *_programme,
    *_stewardship,
    *_upkeep,
]
