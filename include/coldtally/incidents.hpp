// Incidents: one incident as a whole, for those who must be told, guidance that answers a report, and what was done
// about each dose under review.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/conditions.hpp"
#include "coldtally/departures.hpp"
#include "coldtally/drafts.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// The clock of one thing to be done about an incident.
struct DutyClock {
    DutyStep step = DutyStep::supervisor_told;
    std::string who;      ///< a maker's name, where it is asked or answers
    std::string product;  ///< where it is the maker, and none is known: of this
    std::optional<Instant> since;  ///< when the clock began; none: not yet
    std::optional<Instant> due;    ///< none: the programme's rules state no time
    std::optional<Instant> done;
    enum class State { overdue, due, no_limit, done_late, done } state = State::no_limit;
    /// Of an answer that is complete: what doses of its lots wait for that came after; of one who was told: in which
    /// figures the last report was overtaken.
    std::vector<Remark> since_done;
    std::vector<Remark> beside = {};  ///< of an answer: by whom it is, where that is not the maker
};
std::string_view duty_state_name(DutyClock::State state) noexcept;

/// All that the ledger knows of an incident, for those who must be told: the health department, or one maker.
struct IncidentAnswer {
    AnswerHead head;
    std::string incident;
    std::optional<std::string> maker;  ///< only this maker's products
    std::optional<Instant> noticed, closed;
    struct Step {
        EntryNumber entry = 0;
        Instant at;
        std::string by;
        IncidentStep step = IncidentStep::noticed;
        std::string text;
        std::optional<std::string> place;
        std::optional<std::string> note;  ///< also why doses were not put on hold, or why it was closed all the same
    };
    std::vector<Step> steps;

    struct Device {
        std::string probe;
        std::optional<std::string> serial, certificate;
        std::optional<Date> certified_until;
        std::optional<std::string> tolerance;  ///< degrees of the probe's scale, with the unit
    };
    struct Unit {
        std::string place, name;
        PlaceType type = PlaceType::refrigerator;
        std::optional<Instant>
            last_good;  ///< last reading or check in range before: from here on the doses are in doubt
        std::optional<Rational> last_good_C;
        std::optional<Instant> back_in_range;   ///< first reading or check in range after; none: not yet
        Exposure exposure;  ///< of the place's own range, from last_good (else from when it was noticed) on
        std::vector<IncidentExcursion> excursions;
        std::vector<Device> devices;
        std::vector<std::string> earlier_incidents;
        std::int64_t earlier_excursions = 0;    ///< of no incident, ended before this one was noticed
        std::vector<Remark> beside = {};        ///< what no figure counts: what a display showed at the first check
    };
    std::vector<Unit> units;
    std::optional<EntryNumber> rules_entry;
    std::vector<RuleFinding> findings;
    std::vector<Remark> not_judged;  ///< places that no condition is for; each is among what is missing, too

    struct Line {
        HoldingKey holding;   ///< in the affected place
        std::string product_name;
        std::optional<std::string> maker;
        Date expiry;
        Doses doses;          ///< when the doubt began, or when they came in
        History before;       ///< what they had been through by then
        Exposure exposure;    ///< of the product, in this place, in the time of the incident
        std::vector<Duration> allowance_seconds;
        std::optional<Instant> counted;  ///< doses of the lot and fund, after it was noticed
        /// Doses since the doubt began, of this holding and of those into which its doses were moved; found: by counts,
        /// above what was in the book; missing: below.
        std::int64_t given = 0, wasted = 0, returned = 0, transferred = 0, found = 0, missing = 0;
        std::vector<Remark> beside = {};  ///< of its doses: how many are doses of another line, too
    };
    std::vector<Line> lines;
    bool counted = false;              ///< every line
    std::vector<ListsAnswer::Row> now; ///< the holdings that these doses are in at the instant asked about
    std::vector<ReviewAnswer::Row> given;  ///< doses of these holdings given since the doubt began, until it was
                                           ///< closed; and all given later of those lots at which something was found;
                                           ///< the tokens are empty where nobody asked for them
    std::int64_t patients = 0;             ///< that these doses were given to, each counted once
    /// Doses of these holdings that went to another site, or back, since the doubt began, until it was closed: who has
    /// them must be told, since no list and no review holds them any more.
    using Left = Departure;  ///< `told`: by a step or report of this incident, nothing worse being learnt since
    std::vector<Left> left;            ///< by time
    struct Asked {
        std::string maker;                  ///< empty: none is known for the product, which is alone here
        std::optional<std::string> contact, phone, email;
        std::vector<std::string> products;
        std::vector<EntryNumber> reports;  ///< that were sent to it
        struct Answer {
            std::string product, lot;
            std::vector<EntryNumber> guidance;  ///< none: awaited
            std::vector<Remark> said;           ///< of each: verdict, issuer, reference
            bool waits = false;                 ///< doses of the lot wait for what it does not cover
            std::vector<Remark> waits_since;    ///< they wait for what came after all that it is about
        };
        std::vector<Answer> answers;
    };
    std::vector<Asked> makers;
    struct Sent {
        EntryNumber entry = 0;
        Instant at;
        std::string by;
        Recipient to = Recipient::supervisor;
        std::string recipient;
        std::optional<std::string> reference;  ///< their case number
        bool counted = false;
    };
    std::vector<Sent> reports;         ///< of this incident, by time
    std::vector<DutyClock> duties;     ///< overdue first
    /// The figures to tell: what no guidance covers yet of a holding, seconds rounded up; time in an allowance
    /// included, since guidance must know of it to cover the rest. Where nothing is open there is none.
    struct ToTell : Report::Told {  ///< `doses`: that are there now; 0 where it is of doses given alone
        std::int64_t given = 0;     ///< doses given out of it that wait, to which the figures apply, too
        Rational beyond_s;          ///< of out_of_range, exact seconds that no allowance covers
        /// Exact seconds since receipt, what guidance covers included: out of range at most, and on a line between
        /// plain checks, where nothing is known.
        Rational at_most_s, checked_s;
        /// Allowances that are used up: exact seconds beyond what each permits, some of them open.
        struct Over {
            std::size_t allowance = 0;  ///< an index of the product's
            Duration permitted;
            Rational over_s;
            std::string source;
        };
        std::vector<Over> over = {};
    };
    std::vector<ToTell> told;
    Rational unread_s;  ///< the longest time of which readings are awaited still, which no figure counts
    /// The hold entries that came with its notice, not taken back, and the doses that they hold still: none once
    /// guidance has lifted them.
    struct Held {
        EntryNumber entry = 0;
        std::string place, product, lot;
        Doses doses;
        Range range;  ///< of the place, by which nothing was out of range where closing can release it
    };
    std::vector<Held> holds;
    /// What stands against releasing these holds by closing it at the instant asked about, a line each: time of which
    /// the temperature is not known, or that was or may have been out of range. Empty: nothing, or there are no holds.
    std::vector<Remark> against_release;
    std::optional<Instant> release_from,
        release_until;            ///< the time that was looked at; none: no holds, or no reading in range before
    std::vector<Remark> moved;    ///< entries that took doses out of an affected place since, times local
    std::vector<Remark> missing;  ///< what such a report asks and the ledger does not know
};

/// Guidance made from a report that was sent, with what is to be known before it is posted.
struct AnswerDraft {
    std::vector<Entry> entries;         ///< one, or one a holding where they were told different figures
    std::vector<Remark> concerns;  ///< what it does not cover, and what has become known since; empty: nothing
    std::vector<Remark> besides;   ///< doses of the lot that are elsewhere now, and those of opened vials
    std::vector<ListsAnswer::Row> quarantined;  ///< holdings of the lot that wait now
    std::vector<ReviewAnswer::Row> pending;     ///< doses given of the lot that wait now
    Changes changes;                            ///< what posting the entries changes
};

/// Where a dose stands that is followed to its end: by the last step that was noted for it. In this order on the list.
enum class Standing { none_yet, decided, told, no_answer, answered, repeated, tested, not_needed };
/// "none yet", "decided", "told", "no answer", "answered", "repeated", "tested", "not needed"
std::string_view standing_name(Standing standing) noexcept;

/// All, in their order.
std::span<const Standing> follow_up_standings() noexcept;

/// Doses given that must be followed to their end, with what was done: those of the review list, or all of a lot (a
/// recall).
struct FollowUpAnswer {
    AnswerHead head;
    std::optional<std::string> product, lot;  ///< of a recall
    struct Step {
        EntryNumber entry = 0;
        Instant at;
        std::string by;
        Standing step = Standing::decided;  ///< never none_yet
        std::string text;
    };
    struct Dose {
        EntryNumber give = 0;
        Instant given;
        std::string patient;
        HoldingKey holding;
        Doses doses;
        bool certain = true;
        Finding finding = Finding::clear;  ///< of the review; of a dose apart taken_back, clear or given_later
        std::vector<Step> steps;  ///< by (at, entry)
        Standing standing = Standing::none_yet;  ///< the last of them
        /// What is known of the dose now and was not when that last step was posted: look at it again.
        std::vector<Remark> news = {};
    };
    std::vector<Dose> doses;      ///< by the order of follow_up_standings, then by (given, give)
    std::vector<Remark> not_listed = {};  ///< as in ReviewAnswer; of a recall, whose list is whole: none
    std::vector<Dose> apart;      ///< with steps, but no longer on that list; in no count. By (given, give)
    struct Count {
        std::optional<Standing> of;  ///< none: all
        std::int64_t gives = 0;
        Doses doses;
    };
    std::vector<Count> standings; ///< one for each of follow_up_standings; they add up to `whole`
    std::vector<Count> ever;      ///< one for each but "none yet": of the doses that ever had such a step
    Count whole;
    Count look_again = {};        ///< those of `whole` that have `news`, whatever their standing
    /// Doses that left this site, which no review holds: of a recall all of the lot, else those with `news`. By (at,
    /// entry).
    std::vector<DepartedDoses> left = {};
};

}  // namespace coldtally
