// Incident work: what the next entry about an incident is to say, made from what a ledger answers. Nothing here writes:
// the ledger is the same afterwards, also where one of these throws. `now` is the instant of the clock: what is known
// is what was recorded up to it, or up to the last entry where that is later. Each raises the errors of the questions
// that it asks: Code::ledger_missing, Code::damaged and Code::machine of a file that cannot be read.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/ledger.hpp"

namespace coldtally {

/// A report that is to be sent.
struct ReportRequest {
    std::string incident;
    Recipient to = Recipient::supervisor;
    std::string
        recipient;  ///< their name; a manufacturer's as its maker entries state it: only its products are told of
    std::string by;
    std::optional<std::string> reference, text;
    bool uncounted = false;  ///< the doses were not counted first; the report says so
};

/// Which excursions of what an import has read belong to which incident. None: nothing was read, or there are none in
/// it.
std::optional<IncidentsAnswer> incidents_found(const Ledger& ledger, const std::string& probe,
                                               const ImportReport& report, Instant now);

/// What to know and do after that, a line each: of each incident the doses given since the last good reading; of
/// excursions that belong to none how to open one, by place.
std::vector<Remark> steps_after_import(const Ledger& ledger, const IncidentsAnswer& found, const std::string& by,
                                       Instant now);

/// The name of an incident that is noticed in `place`: as stated, else "2026-1", "2026-2", ...: the first of the local
/// year of `at` that no incident has. Code::contradiction where the stated name is taken.
std::string new_incident(const Ledger& ledger, const std::optional<std::string>& stated, Instant at, Instant now);

/// Other incidents of a place that are open at `now`: what is seen there may belong to one of them. An incident counts
/// from its first step; noticed again after it was closed, it is open.
std::vector<Remark> open_beside(const Ledger& ledger, const std::string& incident, const std::string& place,
                                Instant now);

/// A step of an incident, as a person states it.
struct StepRequest {
    std::optional<std::string> incident;  ///< of "noticed", not given: the next number of the year
    IncidentStep step = IncidentStep::noticed;
    std::string text, by;
    std::optional<std::string>
        place;  ///< where it was noticed; of another step: a further place that the incident is of
    std::optional<std::string> note;
    std::optional<std::string> no_hold;  ///< why the doses in the place are not put on hold; kept in the note
    bool release = false;                ///< of "closed": takes the holds back that came with its notice
    std::optional<std::string> despite;  ///< of "closed": why, though doses in doubt are on no hold; kept in the note
    /// Of "action" or a step "... told": the transfers or returns of doses of which who has them was told by it; the
    /// text then begins "told of entry N: ".
    std::vector<EntryNumber> told = {};
    /// Of "noticed": since when the place was out of range, where that is longer ago than three days before it was
    /// noticed: that excursion belongs to the incident, and those before it as if it had been noticed then. The text
    /// then begins "out of range since 2026-11-12T02:06:15Z: ".
    std::optional<Instant> since = {};
};

/// The step as a batch to be posted, dated `at`. With a place that is new to the incident ("noticed", or a later step)
/// a hold, dated `at`, on every product and lot that had doses in it at `at`, and one, dated now, on each that came
/// since. With `release` the voids of the incident's holds, before the step: whether they may go is judged at `at`, by
/// all that is known at `now`: from the last reading in range before the first hold up to the last reading in range at
/// or before `at` all of the time must have been measured and in range, and readings that are known of after `at` stand
/// against it, since a void acts for all time. Which doses stand in doubt is judged at `at`, too. Its warnings say what
/// is still open, and which holds stand. Code::not_known where there is no such incident; Code::contradiction where a
/// stated name is taken, for `release` and `despite` with another step than "closed", for `no_hold` without a place,
/// and where time that was out of range or is not known stands against a release, or doses in doubt that nothing keeps
/// from use against closing without `despite`; Code::bad_value for an empty reason. For `told`:
/// Code::contradiction with another step, Code::not_known for an entry by which nothing left.
Drafted step_draft(const Ledger& ledger, const StepRequest& request, Instant at, Instant now);

/// What is open in an incident at `now`, a line each: for whoever is about to close it. Code::not_known where there is
/// no such incident.
std::vector<Remark> still_open(const Ledger& ledger, const std::string& incident, Instant now);

/// A report with the figures of `at` as they are known at `now`, to be posted. Code::not_known where there is no such
/// incident, or a manufacturer is named of whom it has nothing; Code::missing_field where the doses are not counted and
/// the request does not say so.
Entry report_draft(const Ledger& ledger, const ReportRequest& request, Instant at, Instant now);

/// Of a check out of range that was posted: adds to its next steps which incident the excursion belongs to, with the
/// doses given in the time in doubt, or how to open one. Of a dose given, or doses that left, that belong to an
/// incident: adds to its warnings which reports of it do not tell of them. Of anything else: nothing. `posted` is as it
/// was where this throws.
void add_incidents(const Ledger& ledger, Drafted& posted, Instant now);

}  // namespace coldtally
