// Today: one screen to begin and to end the day with.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/conditions.hpp"
#include "coldtally/incidents.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/upkeep.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// What a site must know and do on the day of the instant, as the other answers have it. It judges no dose: what it
/// does not look at it names, and nothing here says that doses are fit for use.
struct TodayAnswer {
    AnswerHead head;
    Date day;  ///< of the site's calendar

    /// Doses in a place, each counted once.
    struct DosesIn {
        std::string place;
        Doses discard;
        Doses quarantine;     ///< waiting for guidance for what they have been through, or for what is not known
        Doses held;           ///< on that list for a hold alone
        Doses in_doubt;       ///< on keep, and do_not_use(): in the doubt of an incident, or by what stands beside them
        Doses warned;         ///< on keep, and something must be known before they are used
        Doses nothing_found;  ///< on keep without such a warning
        Doses not_to_use() const;
        Doses all() const;
    };
    std::vector<DosesIn> doses;  ///< by place; those with doses

    /// A place in use: it holds doses, or is a storage unit that never held any.
    struct Unit {
        std::string place;
        Range range;
        std::optional<Instant> last;     ///< the last reading or check; none: nothing was ever read there
        std::optional<Rational> last_C;  ///< what it showed, corrected
        std::optional<Side> out;         ///< that was out of range
        Duration silent_after;  ///< the longest time between two checks that the place may have; between two readings
                                ///< where no check was ever made
        bool silent = false;    ///< nothing was read for longer
        Doses doses;
    };
    std::vector<Unit> units;  ///< out of range first, then silent, then what was read longest ago

    struct Incident {
        std::string incident;
        Instant since;
        std::vector<std::string> places;  ///< none: it is of all
        std::vector<DutyClock> duties;    ///< those not done, overdue first
        std::int64_t untold = 0;  ///< departures of its doses of which who has them was not told
        bool counted = false;     ///< the doses of its places, since it was noticed
    };
    std::vector<Incident> incidents;  ///< those that are open, by when they were noticed
    Instant excursions_from;          ///< since when excursions are looked at
    std::vector<IncidentExcursion> without_incident;

    /// Doses whose last day comes within soon_days, those to discard left out.
    struct Use {
        HoldingKey holding;
        Doses doses;
        LastUse last_use;
        List list = List::keep;
        std::vector<std::string> in_doubt;
        std::vector<Remark> beside;
        bool opened = false;  ///< of a vial that was opened
        bool warned = false;  ///< as DosesIn::warned
    };
    std::vector<Use> use;  ///< by last_use.until, opened vials first, holding
    /// Doses of which a vial must be open and no entry says when: their last day is not known.
    struct Vial {
        HoldingKey holding;
        Remark text;
    };
    std::vector<Vial> vials;
    Instant use_until;  ///< the end of those days

    /// Of a place in use, what the programme's rules ask for today.
    struct Checks {
        std::string place;
        bool judged = true;  ///< false: no rule is known that is for it
        struct Made {
            Instant at;
            bool min_max = false;
        };
        std::vector<Made> made;  ///< today, all of them
        struct AskedCheck {
            Instant by;  ///< the rule's time, or the end of the day
            enum class State { made, missed, to_make } state = State::made;
            bool min_max = false;   ///< with minimum and maximum
            bool unfinished = false;  ///< one is there in its time, but without minimum and maximum
        };
        std::vector<AskedCheck> asked;  ///< ascending; none: the rule asks for none today
    };
    std::vector<Checks> checks;  ///< by place

    /// Certificates, logger readings, counts, plan, training and loans: what is overdue or due within soon_days, and
    /// what was looked at, as in ReadinessAnswer.
    std::vector<ReadinessAnswer::Finding> due;
    std::vector<ReadinessAnswer::Topic> topics;

    static constexpr std::int64_t soon_days = ReadinessAnswer::soon_days;
};
/// "made", "missed", "to make"
std::string_view asked_state_name(TodayAnswer::Checks::AskedCheck::State state) noexcept;

}  // namespace coldtally
