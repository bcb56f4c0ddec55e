// Work: the phrases of what was done in everyday work: notices, steps and reports that were posted, the lid of a
// container.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

inline constexpr Says<0> for_the_lid{"for-the-lid", "For the lid:"};
inline constexpr Says<2> entries_from_to{"entries-from-to", "entries {first} to {last}"};

// a notice
inline constexpr Says<2> would_open{"would-open", "would open incident {incident} ({held}); nothing was written"};
inline constexpr Says<3> opened{"opened", "Incident {incident}, entry {entry}: {held}"};
inline constexpr Says<0> no_place_named{"no-place-named", "no place is named: no doses are put on hold"};
inline constexpr Says<1> notice_now{
    "notice-now",
    "Now: mark the doses DO NOT USE and keep them in range; throw nothing away. Note what the display shows ({task})."};
inline constexpr Says<1> notice_now_not_held{
    "notice-now-not-held",
    "Now: mark the doses DO NOT USE and keep them in range; throw nothing away. Note what the display shows "
    "({task}). The doses are on no hold: the words IN DOUBT alone keep them from use."};
inline constexpr Says<1> note_line{"note-line", "NOTE: {text}"};
inline constexpr Says<2> note_other_incident{
    "note-other-incident", "NOTE: {incident}. If this belongs to it, take this entry back, and the holds: {task}"};
inline constexpr Says<0> belongs_to_another{"belongs-to-another", "belongs to another incident"};

// a step
inline constexpr Says<1> still_open_line{"still-open-line", "STILL OPEN: {what}"};
inline constexpr Says<2> incident_step{"incident-step", "incident {incident}: {step}"};
inline constexpr Says<1> would_be_noted{"would-be-noted", "{what}: would be noted; nothing was written"};
inline constexpr Says<2> noted_as{"noted-as", "{what}, entry {entry}"};

// a report
inline constexpr Says<0> nothing_written{"nothing-written", "Nothing was written."};
inline constexpr Says<2> report_posted{"report-posted", "Report to {recipient}, entry {entry}"};

}  // namespace coldtally::words
