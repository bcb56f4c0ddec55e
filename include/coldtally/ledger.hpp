// Ledger: one site's file; posts entries and answers questions. The face of the library.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/conditions.hpp"
#include "coldtally/drafts.hpp"
#include "coldtally/entered.hpp"
#include "coldtally/entries.hpp"
#include "coldtally/error.hpp"
#include "coldtally/handovers.hpp"
#include "coldtally/immunizations.hpp"
#include "coldtally/incidents.hpp"
#include "coldtally/journeys.hpp"
#include "coldtally/logger.hpp"
#include "coldtally/loosening.hpp"
#include "coldtally/question.hpp"
#include "coldtally/start.hpp"
#include "coldtally/stewardship.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/upkeep.hpp"
#include "coldtally/verification.hpp"
#include "coldtally/view.hpp"

namespace coldtally {

/// One ledger file. Throws Error for every refusal and failure; a call that throws has written nothing.
///
/// Threads and processes: one Ledger object belongs to one thread at a time. Any number of objects, in any number of
/// threads and processes, may have one file open: any number of them read at once, and one at a time writes; the others
/// wait for it, up to `wait`, then Code::busy. A call sees the ledger as it was at one instant: whole batches or
/// nothing. An object must not be used in a child process made by fork().
///
/// A post that returned is on the disk: it survives the end of the process and the loss of power.
class Ledger {
public:
    enum class Mode {
        read,    ///< questions only; the file must be there
        write,   ///< the file must be there
        create,  ///< makes the file with the first post, which must begin with a site entry; uses it if it is there
    };
    /// Opens `path`. `wait`: how long a call may wait for another process.
    explicit Ledger(const std::string& path, Mode mode = Mode::read, Duration wait = Duration(10));
    ~Ledger();
    Ledger(Ledger&&) noexcept;
    Ledger& operator=(Ledger&&) noexcept;

    /// As it was given.
    const std::string& path() const noexcept;

    /// Posts the entries of a JSON Lines text, all or nothing, recorded at `now` (at the last entry's instant, where
    /// the clock has gone back behind it). Returns their numbers. `dry_run`: checks everything, writes nothing.
    /// `warnings`: gets what a careful person wants to know of entries that mean what they say, each with its line, and
    /// what all of them together loosen; none of it refuses anything.
    std::vector<EntryNumber> post(std::string_view json_lines, Instant now, bool dry_run = false,
                                  std::vector<Remark>* warnings = nullptr);
    /// The same for entries made by the caller; they carry no number and no recorded instant. Readings are the fast way
    /// in for many rows: they do not become text on their way.
    std::vector<EntryNumber> post(std::vector<Entry> entries, Instant now, bool dry_run = false);
    /// The same for a draft, whose entries get their numbers.
    void post(Drafted& drafted, Instant now, bool dry_run = false);
    /// Fills a new ledger from exported entries, which carry `entry` and `recorded`.
    std::vector<EntryNumber> replay(std::string_view json_lines);

    /// Makes a draft whole: the JSON of one entry in the form of `post`, of which all may be left out that has one
    /// meaning only in this ledger: at (then now; "08:05" is today), place, product, lot, fund, mark, scale, the doses
    /// of a move; `expiry` in a receive defines a new lot; a definition of a known site, product, place, probe or maker
    /// keeps what it does not state, but for the names in `without`; `opened` (an instant), `vial` (a mark) and
    /// `vial_doses` in a give, waste or beyond-use also note that a vial was opened: its doses get the mark, and a
    /// use-by from then on; a follow-up may state `patient`, `product`, `lot` in place of `give`, and `every`: true for
    /// a step of each that is to be followed. Writes nothing. Code::ambiguous, with what it may be, where there are
    /// several; Code::missing_field also where something must not pass without a note (a minimum below freezing,
    /// another expiry, limits that may have been typed wrong).
    Drafted draft(std::string_view json, Instant now) const;
    /// How a drafted give, move, count, waste or return can be posted though movements after it cannot stand as they
    /// are then. None where nothing stands against it, and where no such correction is sure: more doses were taken
    /// later than there can have been, or an entry that would get another number is named by another (a transfer's
    /// handover, a step with a patient, a loan).
    std::optional<LateCorrection> late_correction(const Drafted& drafted, Instant now) const;
    /// Makes what a clinic's file says whole (start.hpp): each row as draft does, as if those before it were posted.
    /// Whatever cannot be taken is in the answer, all of it. Writes nothing. Code::bad_text for what is no plain text;
    /// Code::bad_value for initials.
    StartDraft start_draft(const StartRequest& request, Instant now);
    /// What these entries would change on stock, lists and review at `now`. Checks them as `post` does, writes nothing.
    Changes changes(std::vector<Entry> entries, Instant now);
    /// What these entries would loosen, as known at `now`; none where entries of such kinds and instants can loosen
    /// nothing: a check, readings or a movement after all that is known of the place or the lot, while no time there is
    /// unknown. Checks them as `post` does where it looks; writes nothing.
    std::optional<Loosening> loosening(std::vector<Entry> entries, Instant now);
    /// What the lists would say at `now` of doses that the entries bring into a place, were they posted, where they are
    /// not on keep: a sentence each, but for what `said` says. Writes nothing. Of entries that bring none: nothing.
    std::vector<Remark> arrivals(std::vector<Entry> entries, const std::vector<Remark>& said, Instant now);
    /// move_list of a place as it would be at an instant, were the entries posted. Writes nothing; errors of post.
    MoveListAnswer move_list_after(std::vector<Entry> entries, const std::string& place, Instant at, Instant now);

    /// handover of a transfer as it would be, were the entries posted, the last of which is the transfer. Writes
    /// nothing; errors of post.
    HandoverAnswer handover_after(std::vector<Entry> entries, Instant now);

    /// Checks at departure, the moves and the trip as one batch to be posted. Code::contradiction where the container
    /// does not suit a product, and the request does not say what then.
    Drafted pack(const PackRequest& request, Instant now) const;
    /// Checks at arrival, counts, the moves and the trip's arrival as one batch. Code::missing_field where a lot is not
    /// counted.
    Drafted unpack(const UnpackRequest& request, Instant now) const;

    /// Every entry, in the order of posting, as far as there were entries when it was called. `take` may wait: nobody
    /// waits for it.
    void for_each_entry(const std::function<void(const Entry&)>& take) const;

    /// Reads logger files as readings of a probe, all files or none; see logger.hpp. A Refusal of Code::missing_field,
    /// with all of it, where they loosen what the request does not say may be loosened.
    ImportReport import_readings(const ImportRequest& request, const std::vector<LoggerFile>& files, Instant now,
                                 bool dry_run = false);
    /// The same with one file in memory at a time: `next` hands them out until there is none.
    ImportReport import_readings(const ImportRequest& request, const std::function<std::optional<LoggerFile>()>& next,
                                 Instant now, bool dry_run = false);

    /// The ledger at an instant, of what is known on another (both: now, where the question does not say): all
    /// questions are asked of it. Code::not_known where known-on lies before the first entry.
    View as_of(const Question& question, Instant now) const;

    // One question alone: the short form of as_of(question, now).NAME(...); each is described there.
    HandoverAnswer handover(EntryNumber transfer, const Question& question, Instant now) const;
    StockAnswer stock(const Question& question, Instant now) const;
    ListsAnswer lists(const Question& question, Instant now) const;
    ScanAnswer scan(std::string_view text, const Question& question, Instant now) const;
    ReviewAnswer review(const Question& question, Instant now, bool all = false) const;
    ImmunizationsAnswer immunizations(const Question& question, const std::optional<std::string>& patient,
                                      Instant now) const;
    ExcursionsAnswer excursions(const std::string& place, Instant from, Instant until, const Question& question,
                                Instant now) const;
    ConditionsAnswer conditions(const std::string& place, Instant from, Instant until, const Question& question,
                                Instant now, std::int64_t activation_K = 10000) const;
    UnitAnswer unit(const std::string& place, std::optional<Instant> from, std::optional<Instant> until,
                    const Question& question, Instant now, std::int64_t activation_K = 10000) const;
    MoveListAnswer move_list(const std::string& place, const std::optional<std::string>& container,
                             const Question& question, Instant now) const;
    TripAnswer trip(const std::string& container, std::optional<Duration> limit, const Question& question,
                    Instant now) const;
    Explanation explain(const HoldingKey& holding, const Question& question, Instant now) const;
    ReadingsAnswer readings(const std::string& probe, Instant from, Instant until, const Question& question,
                            Instant now) const;
    TraceAnswer trace(const std::string& place, Instant from, Instant until, const Question& question,
                      Instant now) const;
    StaysAnswer stays(const std::string& product, const std::string& lot, const Question& question, Instant now) const;
    IncidentsAnswer incidents(const std::optional<std::string>& place, const std::optional<std::string>& probe,
                              Instant from, Instant until, const Question& question, Instant now,
                              bool others = true) const;
    IncidentAnswer incident(const std::string& id, const std::optional<std::string>& maker, const Question& question,
                            Instant now, bool patients = false) const;
    RulesAnswer rules(const std::optional<std::string>& place, Instant from, Instant until, const Question& question,
                      Instant now) const;
    DatesAnswer dates(const Question& question, Instant now) const;
    LoansAnswer loans(const Question& question, Instant now, bool all = false, bool patients = false) const;
    AccountabilityAnswer accountability(Instant from, Instant until, const Question& question, Instant now) const;
    PlanAnswer plan(const Question& question, Instant now) const;
    FollowUpAnswer follow_up(const std::optional<std::string>& lot, const std::optional<std::string>& product,
                             const Question& question, Instant now) const;
    TrainingAnswer training(const Question& question, Instant now) const;
    TodayAnswer today(const Question& question, Instant now) const;
    ReadinessAnswer readiness(std::optional<Instant> from, const Question& question, Instant now) const;
    EnteredAnswer entered(const EnteredRequest& request, const Question& question, Instant now) const;
    ShownAnswer show(const ShowRequest& request, const Question& question, Instant now) const;

    /// Guidance on a lot that answers a report: its `through` and `told` are taken from there. `guidance`: the entry to
    /// be made, whole but for those two. Writes nothing; what it changes is found by posting it and undoing that.
    /// Code::not_known where there is no such report, or it told nothing of the lot; else as post.
    AnswerDraft answer_draft(EntryNumber report, const Entry& guidance, Instant now);
    /// The gives that records of another system make (FHIR R4, see fhir.hpp for the text and its errors), to be posted
    /// together. A record that is no dose of this ledger, or was noted already, is left out with its reason. Writes
    /// nothing. Code::ambiguous: a lot of several products, or several holdings; Code::contradiction: another vaccine
    /// or expiry than the lot's, one id twice with other content.
    DraftedRecords give_records(const RecordsRequest& request, std::string_view text, Instant now) const;

    /// Recomputes the chain, every derived row and the balances from the entries, and says what does not agree.
    /// `noted`: what an earlier verify said to write down; the chain must still have it.
    Verification verify(const std::optional<NotedLink>& noted = std::nullopt) const;

    /// The zone of the site entry that holds among those known on `known_on` (none: now).
    Zone zone(std::optional<Instant> known_on = std::nullopt) const;
    /// The scale in which the site keeps its sheets: that of the last check of most places, else of most probes; C
    /// where there are none.
    Scale sheet_scale() const;

    /// Counts of work done since opening, free of noise; for tests and tuning.
    struct Counters {
        std::int64_t statements = 0, blocks_decoded = 0, readings_decoded = 0, movements_read = 0;
    };
    Counters counters() const noexcept;

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace coldtally
