// Incidents: what a programme's rules make of a place's temperatures, and excursions with what people did about them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/answers.hpp"
#include "coldtally/departures.hpp"
#include "coldtally/drafts.hpp"

namespace coldtally {

/// One condition of a programme for one place in a window.
struct RuleFinding {
    std::string rule, text;  ///< as the programme names and words it
    std::string place;
    ProgrammeRules::Reportable::Form form = ProgrammeRules::Reportable::Form::reading;
    /// Once for each way of judging a reading whose probe has a tolerance; at_least met implies the other two.
    struct Level {
        bool met = false;
        std::optional<Rational>
            first_s;  ///< of what reaches into the window, seconds since 1970-01-01T00:00:00Z: when it was met
        Rational
            most;  ///< longest run or largest sum in seconds, readings beyond the limit, or excursions counted together
    };
    Level at_least, estimate, at_most;
    Level with_unknown;  ///< at_most, and had it been beyond the limit in all the time that is not known, too; `most`
                         ///< of readings and excursions is that of at_most: nobody can say how many there were
    Rational unknown_s;  ///< seconds of the time that the condition asks about of which the temperature is not known,
                         ///< not yet, only that it is near a reading in range, or only on a line between plain checks
    Rational checked_s;  ///< of them, those between plain checks
    /// `cannot_be_said`: not by what is known, and the time that is not known could have met it.
    enum class State { met, met_by_estimate, perhaps_met, cannot_be_said, not_met };
    State state() const noexcept;
};
/// "met", "met by the estimate", "perhaps met", "cannot be said", "not met"
std::string_view rule_state_name(RuleFinding::State state) noexcept;

/// The rules that hold, and which of their conditions were met where.
struct RulesAnswer {
    AnswerHead head;
    std::optional<EntryNumber> entry;  ///< none: no rules are known
    ProgrammeRules rules;
    Instant from, until;               ///< the window, as asked
    struct Unknown {
        std::string place;
        Rational unmonitored_s;        ///< time in the window of which nothing is known: it may hide more
        Rational checked_s;            ///< and time on a line between plain checks: nothing is known between them
    };
    std::vector<Unknown> places;       ///< all that were looked at, by id
    std::vector<RuleFinding> findings; ///< by place, then in the order of the rules; also those that were not met
    std::vector<std::string> not_judged; ///< places that no condition is for, in words
};

/// An excursion of a place, without what was inside.
struct IncidentExcursion {
    std::string place;
    Side side = Side::warm;
    ExcursionKind kind = ExcursionKind::line;
    Rational from_s, until_s, duration_s, peak_C;  ///< as ExcursionsAnswer::Row
    bool open = false;
    Rational checked_s;
};

/// Which excursions belong to which incident. An excursion belongs to the incident that was noticed while it lasted or
/// soon after (each at most the place's longest time between checks later than the one before); else to one that was
/// open when it began; else to none.
struct IncidentsAnswer {
    AnswerHead head;
    struct Row {
        std::string incident;
        std::optional<Instant> noticed, closed;      ///< `closed`: none where it was noticed again afterwards
        Instant since;  ///< when it was noticed; where nobody wrote that down, its first step
        bool open = true;
        std::vector<std::string> places;             ///< that its steps name; none: it is of all places
        std::vector<IncidentExcursion> excursions;   ///< in the window asked about
    };
    std::vector<Row> incidents;                      ///< those not closed first, then by when they were noticed
    std::vector<IncidentExcursion> without_incident; ///< nobody has opened one for them
    std::vector<std::string> not_listed = {};  ///< excursions outside what was asked for, in words; all are looked for
};

/// Many excursions in short.
struct ExcursionsInShort {
    std::int64_t count = 0;
    std::optional<IncidentExcursion> longest;  ///< of equally long ones the latest; none: there is none
    std::optional<IncidentExcursion> latest;   ///< the last to end, of those the longest
};
ExcursionsInShort in_short(const std::vector<IncidentExcursion>& excursions);
/// Of all that were found, whether they belong to an incident or not.
ExcursionsInShort in_short(const IncidentsAnswer& found);

/// The clock of one thing to be done about an incident.
struct DutyClock {
    std::string step;              ///< of an incident, or "answer"
    std::string who;               ///< a maker's name, where it is asked or answers
    std::optional<Instant> since;  ///< when the clock began; none: not yet
    std::optional<Instant> due;    ///< none: the programme's rules state no time
    std::optional<Instant> done;
    enum class State { overdue, due, no_limit, done_late, done } state = State::no_limit;
    std::vector<std::string>
        since_done;  ///< in words, of an answer that is complete: what doses of its lots wait for that came after; of
                     ///< one who was told: in which figures the last report was overtaken
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
        std::string by, step, text;
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
        std::vector<std::string> beside = {};   ///< what no figure counts: what a display showed at the first check
    };
    std::vector<Unit> units;
    std::optional<EntryNumber> rules_entry;
    std::vector<RuleFinding> findings;
    std::vector<std::string> not_judged;  ///< as in RulesAnswer; each is among what is missing, too

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
        std::string maker;             ///< or that none is known for a product
        bool known = false;
        std::optional<std::string> contact, phone, email;
        std::vector<std::string> products;
        std::vector<EntryNumber> reports;  ///< that were sent to it
        struct Answer {
            std::string product, lot;
            std::vector<EntryNumber> guidance;  ///< none: awaited
            std::vector<std::string> said;      ///< each in words: verdict, issuer, reference
            bool waits = false;                 ///< doses of the lot wait for what it does not cover
            std::vector<std::string> waits_since;  ///< they wait for what came after all that it is about, in words
        };
        std::vector<Answer> answers;
    };
    std::vector<Asked> makers;
    struct Sent {
        EntryNumber entry = 0;
        Instant at;
        std::string by, to, recipient;
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
    std::vector<std::string> against_release;
    std::optional<Instant> release_from,
        release_until;                 ///< the time that was looked at; none: no holds, or no reading in range before
    std::vector<std::string> moved;  ///< entries that took doses out of an affected place since, in words, times local
    std::vector<std::string> missing;  ///< what such a report asks and the ledger does not know
};

/// Guidance made from a report that was sent, with what is to be known before it is posted.
struct AnswerDraft {
    std::vector<Entry> entries;         ///< one, or one a holding where they were told different figures
    std::vector<std::string> concerns;  ///< what it does not cover, and what has become known since; empty: nothing
    std::vector<std::string> besides;  ///< doses of the lot that are elsewhere now, and those of opened vials, in words
    std::vector<ListsAnswer::Row> quarantined;  ///< holdings of the lot that wait now
    std::vector<ReviewAnswer::Row> pending;     ///< doses given of the lot that wait now
    Changes changes;                            ///< what posting the entries changes
};

}  // namespace coldtally
