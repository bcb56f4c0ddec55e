// Entries: the facts a ledger is made of, one struct a kind, and their JSON form.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "coldtally/exposure.hpp"
#include "coldtally/quantities.hpp"

namespace coldtally {

using EntryNumber = std::int64_t;  ///< 1, 2, 3 ... in the order of posting

/// The doses of one (place, product, lot, fund, mark). Answers order them by these, as bytes.
struct HoldingKey {
    std::string place, product, lot, fund, mark;
    auto operator<=>(const HoldingKey&) const = default;
};

// ---- definitions: they state knowledge, not events

struct Site {
    static constexpr std::string_view kind = "site";
    std::string name, zone;
    std::optional<Duration> unmonitored_limit;  ///< default 0
    std::optional<Duration> stale_after;        ///< default 24 h
};

struct Allowance {
    Limit low, high;    ///< a closed band
    Duration seconds;   ///< cumulative
    std::string source;
};

struct Product {
    static constexpr std::string_view kind = "product";
    std::string product, name;
    Range range;
    std::optional<Limit> freeze_limit;
    std::optional<std::vector<Allowance>> allowances;
    std::optional<std::map<std::string, Duration>> beyond_use;  ///< period by event ("first puncture")
    std::optional<std::string> cvx;
    std::optional<std::vector<std::string>> gtin;
    std::optional<Doses> doses_per_vial;
};

struct Lot {
    static constexpr std::string_view kind = "lot";
    std::string product, lot;
    std::string expiry;  ///< as posted: "2027-05-31" or "2027-05"
};

enum class PlaceType { refrigerator, freezer, ultra_cold_freezer, transport_container, room };
std::string_view place_type_name(PlaceType type) noexcept;

struct Place {
    static constexpr std::string_view kind = "place";
    /// What holds where the entry says nothing; all three common practice, no source.
    static constexpr Duration usual_max_gap{3600}, usual_max_check_gap{64800}, usual_near{1800};
    std::string place, name;
    PlaceType type = PlaceType::refrigerator;
    Range range;
    std::optional<Duration> max_gap;        ///< longest step between two readings; default 1 h
    std::optional<Duration> max_check_gap;  ///< the same of checks; default 18 h: a night between two workdays
    std::optional<Duration>
        near;  ///< how far a reading or check in range speaks for the time around it; default 30 min, at most 2 h
};

struct Probe {
    static constexpr std::string_view kind = "probe";
    std::string probe;
    Scale scale = Scale::C;
    std::optional<std::string> serial;
};

// ---- events

struct Certificate {
    static constexpr std::string_view kind = "certificate";
    std::string probe;
    Date expires;
    std::optional<std::string> number;
    std::optional<TemperatureDifference> tolerance;  ///< in the probe's scale, >= 0
    struct Row {
        std::int32_t indicated;   ///< thousandths of a degree of the probe's scale
        TemperatureDifference correction;
    };
    std::optional<std::vector<Row>> correction;
};

struct Assign {
    static constexpr std::string_view kind = "assign";
    std::string probe;
    std::optional<std::string> place;
};

/// One row of a probe's memory, as indicated, in thousandths of a degree of the probe's scale.
struct Reading {
    Instant at;
    std::int32_t thousandths;
    friend bool operator==(const Reading&, const Reading&) = default;
};

struct Readings {
    static constexpr std::string_view kind = "readings";
    std::string probe;
    Scale scale = Scale::C;
    std::vector<Reading> rows;  ///< any order when posted; the ledger keeps them by instant, equal ones once
    struct Source {
        std::string file, sha256;
        /// To what the file's temperatures were rounded, in degrees of the scale: 1, 0.1, 0.01 or 0.001. None: they are
        /// as in the file.
        std::optional<TemperatureDifference> resolution;
    };
    std::optional<Source> source;
};

struct Check {
    static constexpr std::string_view kind = "check";
    std::string place;
    Temperature temperature{Scale::C, 0};
    std::optional<Temperature> min, max;  ///< since the check before; both or none, in the same scale
    std::optional<std::string> probe;     ///< the thermometer it was read from
};

/// What the sender states of doses: their history there, and the seconds of the product's allowances it counts against.
struct Handover {
    History history;
    std::vector<Duration> allowance_seconds;
};

struct Receive {
    static constexpr std::string_view kind = "receive";
    std::string place, product, lot, fund, mark;
    Doses doses;
    std::optional<Handover> handover;
};

struct Move {
    static constexpr std::string_view kind = "move";
    std::string product, lot, fund;
    std::string from_place, from_mark, to_place, to_mark;
    Doses doses;
};

struct Give {
    static constexpr std::string_view kind = "give";
    std::string place, product, lot, fund, mark;
    Doses doses{1};
    std::string patient;  ///< an opaque token, never a name
    bool certain = true;  ///< false: the chart names the lot, not the box
};

struct Waste {
    static constexpr std::string_view kind = "waste";
    std::string place, product, lot, fund, mark;
    Doses doses;
    std::string reason;
};

struct Return {
    static constexpr std::string_view kind = "return";
    std::string place, product, lot, fund, mark;
    Doses doses;
    std::string reason;
};

struct Transfer {
    static constexpr std::string_view kind = "transfer";
    std::string place, product, lot, fund, mark;
    Doses doses;
    std::string reason, to;
};

struct Count {
    static constexpr std::string_view kind = "count";
    std::string place, product, lot, fund, mark;
    Doses doses;  ///< as counted, from 0
};

struct BeyondUse {
    static constexpr std::string_view kind = "beyond-use";
    std::string place, product, lot, fund, mark;
    std::optional<std::string> event;                   ///< either one of the product's events
    std::optional<std::variant<Instant, Date>> use_by;  ///< or an instant, or a date (its end)
};

struct Hold {
    static constexpr std::string_view kind = "hold";
    std::string reason, product;
    std::optional<std::string> lot, place, mark;
};

enum class Verdict { use, use_by, discard };
std::string_view verdict_name(Verdict verdict) noexcept;

struct Guidance {
    static constexpr std::string_view kind = "guidance";
    std::string product, lot;
    std::optional<std::string> place, mark;
    std::optional<Instant>
        since;  ///< from when on the exposures count that it judges; not after `through`; for review alone
    Instant through;
    Verdict verdict = Verdict::use;
    std::optional<Date> use_by;  ///< with Verdict::use_by
    std::string issuer, reference;
    /// What the issuer was told, or up to what the issuer says the answer holds; at least one. What is not stated is
    /// not compared.
    struct Told {
        std::optional<Duration> out_of_range, unmonitored;
        std::optional<std::int64_t> points;
    };
    std::optional<Told> told;
};

enum class IncidentStep { noticed, supervisor_told, health_department_told, manufacturer_told, cause, action, closed };
std::string_view incident_step_name(IncidentStep step) noexcept;
/// Code::bad_value for what is none.
IncidentStep incident_step_of(std::string_view name);
/// That somebody was told: "supervisor told", "health department told", "manufacturer told".
bool is_telling(IncidentStep step) noexcept;

struct Incident {
    static constexpr std::string_view kind = "incident";
    std::string incident;
    IncidentStep step = IncidentStep::noticed;
    std::string text;
    std::optional<std::string> place;
};

/// The contingency plan that hangs on the door; see lib/entries/README.md for the JSON of each part.
struct Plan {
    static constexpr std::string_view kind = "plan";
    struct Person {
        std::string name, role;
        std::optional<std::string> office, home, mobile, email;
        bool alternate = false;  ///< stands in for the coordinator
    };
    struct Backup {
        std::string name;
        std::optional<std::string> contact, phone, address, agreement, power, distance, capacity;
        std::optional<Date> agreed;        ///< date of the agreement
        std::optional<Date> agreed_until;  ///< its last day
    };
    struct Service {
        std::string what, phone;
        std::optional<std::string> name;
    };
    struct Signature {
        std::string name;
        Date date;
    };
    std::vector<Person> people;      ///< in the order of calling
    std::vector<Backup> backups;     ///< in the order of choice
    std::vector<Service> services;   ///< power company, repair, alarm, generator, ...
    std::vector<Service> notify;     ///< supervisor, health department, ...
    std::optional<std::string> containers, packing, steps;
    std::optional<Date> reviewed;
    std::optional<std::string> reviewed_by;
    std::optional<Date> review_due;  ///< the last day by which to review it again
    std::vector<Signature> signatures;  ///< of those who have read it
};

/// Whom a report is sent to.
enum class Recipient { supervisor, health_department, manufacturer };
std::string_view recipient_name(Recipient to) noexcept;
/// Code::bad_value for what is none.
Recipient recipient_of(std::string_view name);

/// What is due about an incident: one of its steps, or that the one who was asked has answered.
enum class DutyStep { supervisor_told, health_department_told, manufacturer_told, answer, cause, action, closed };
std::string_view duty_step_name(DutyStep step) noexcept;
/// The step that does the duty; none of "answer".
std::optional<IncidentStep> step_of(DutyStep duty) noexcept;
/// That they are told.
DutyStep told_duty(Recipient to) noexcept;

/// What a programme asks of a site: data with a source and a date, since programmes differ. The last entry known holds.
/// lib/entries/programme.md states the JSON. What is left out, the programme does not say.
struct ProgrammeRules {
    static constexpr std::string_view kind = "rules";
    std::string programme, source;  ///< whose rules, and where they stand
    Date dated;                     ///< of that source

    /// Which temperatures count. Without a limit: the place's own range on that side.
    struct Temperatures {
        enum class Is { above, at_or_above, below, at_or_below } is = Is::above;
        std::optional<Limit> limit;
    };
    /// One condition on which something must be reported.
    struct Reportable {
        std::string rule;  ///< its name, once in an entry
        std::string text;  ///< in the programme's words; may be empty
        enum class Form {
            run,      ///< a time without a break
            sum,      ///< times that add up within a window
            reading,  ///< any reading, check, minimum or maximum
            pattern,  ///< so many excursions within a window
        } form = Form::reading;
        std::optional<Temperatures> temperature;  ///< none: out of the place's own range, either side (pattern alone)
        std::int64_t threshold = 0;               ///< seconds (run, sum) or excursions (pattern)
        bool more_than = false;                   ///< the threshold itself is not enough
        std::optional<Duration> within;           ///< of sum and pattern; a pattern without one looks back for ever
        std::vector<PlaceType> places;            ///< none: all types
        std::vector<std::string> products;        ///< none: all; else only while doses of one of them are in the place
    };
    std::vector<Reportable> report;

    /// What is due, and within which time. All run from the step "noticed", "answer" from when the one who is to answer
    /// was told.
    struct Duty {
        DutyStep step = DutyStep::supervisor_told;
        Duration within;
        bool if_reportable = false;  ///< due only where a condition of `report` was met
    };
    std::vector<Duty> duties;

    struct Retention {
        std::string records;  ///< kind of records
        std::int64_t years = 0;
    };
    std::vector<Retention> retention;

    /// Checks of places: on which days of the week, how many a day, and by which local times.
    struct Checks {
        std::vector<PlaceType> places;   ///< none: all types
        std::vector<int> weekdays;       ///< 1 Monday to 7 Sunday, ascending
        std::int64_t per_day = 1;
        std::vector<int> by;             ///< seconds since local midnight, ascending; none, or as many as per_day
        bool min_max = false;            ///< with minimum and maximum
    };
    std::vector<Checks> checks;

    std::optional<Duration> longest_trip;
    std::optional<std::int64_t> repay_loans_within_days;
    /// How often a thing must be done: "plan review", "backup agreement", "training", "count", "logger reading", "log
    /// review", "certificate", "service", "self-audit".
    std::map<std::string, std::int64_t> every_days;
};

/// Who makes a product, and how to ask them.
struct Maker {
    static constexpr std::string_view kind = "maker";
    std::string product, name;
    std::optional<std::string> contact, phone, email;
};

/// A report of an incident that was sent, with the figures its reader was told.
struct Report {
    static constexpr std::string_view kind = "report";
    std::string incident;
    Recipient to = Recipient::supervisor;
    std::string recipient;  ///< their name
    Instant through;        ///< the figures are those of this instant
    bool counted = false;   ///< the doses of the affected places had been counted
    std::optional<std::string> reference, text;
    /// What is open of a holding: all that guidance has to cover.
    struct Figures {
        Duration out_of_range, unmonitored;
        std::int64_t points = 0;
        friend bool operator==(const Figures&, const Figures&) = default;
    };
    struct Told {
        std::string place, product, lot, fund, mark;
        Doses doses;
        Figures figures;
    };
    std::vector<Told> told;
};

enum class TripStep { departure, arrival };
std::string_view trip_step_name(TripStep step) noexcept;

/// What movements and checks cannot say of a journey of doses in a container. The doses are those of its movements.
struct Trip {
    static constexpr std::string_view kind = "trip";
    std::string container;  ///< a place
    TripStep step = TripStep::departure;
    std::optional<std::string> destination, reason;  ///< of a departure always
    std::optional<std::string> packed_by, approval, coolant, conditioning;  ///< of a departure
    std::optional<std::string> received_by;          ///< of an arrival
};

struct Void {
    static constexpr std::string_view kind = "void";
    EntryNumber voids = 0;
    std::string reason;
};

// ---- duties: they change no stock; lib/entries/duties.md states the JSON

/// Doses of one fund that were given to somebody another fund should have paid for.
struct Loan {
    static constexpr std::string_view kind = "loan";
    EntryNumber give = 0;
    std::string eligible;  ///< the fund that owes them
    std::string reason;
};

struct Repayment {
    static constexpr std::string_view kind = "repayment";
    EntryNumber loan = 0;
    Doses doses;
    std::optional<EntryNumber> with;  ///< the receive or give by which they came back
};

/// A step with a patient whose dose is under review.
struct FollowUp {
    static constexpr std::string_view kind = "follow-up";
    EntryNumber give = 0;
    std::string step, text;
};

struct Training {
    static constexpr std::string_view kind = "training";
    std::string person, topic;
    std::optional<Date> due;  ///< of the next
    std::optional<std::string> reference;
};

using Fact = std::variant<Site, Product, Lot, Place, Probe, Certificate, Assign, Readings, Check, Receive, Move, Give,
                          Waste, Return, Transfer, Count, BeyondUse, Hold, Guidance, Incident, Plan, Void,
                          ProgrammeRules, Maker, Report, Loan, Repayment, FollowUp, Training, Trip>;

/// One posted fact, or one to be posted (then without number and recorded).
struct Entry {
    EntryNumber number = 0;            ///< 0: not posted yet
    std::optional<Instant> recorded;   ///< when it was posted
    std::optional<Instant> at;         ///< when it happened; none for readings, optional for definitions
    std::string by;                    ///< initials
    std::optional<std::string> note;
    Fact fact;
};

std::string_view kind_of(const Entry& entry) noexcept;
bool is_definition(const Entry& entry) noexcept;

/// The form of `export`: one JSON object in one line (no line end), instants in UTC with Z, `entry` and `recorded`
/// where set. Code::bad_text where a text of an entry made by the caller is not UTF-8.
std::string to_json(const Entry& entry);

}  // namespace coldtally
