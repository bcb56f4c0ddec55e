// Upkeep: answers on what a site must keep in order: the contingency plan, doses under review followed to their end,
// training.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/answers.hpp"

namespace coldtally {

/// One thing that the contingency plan lacks, or that is old in it.
struct PlanFinding {
    /// "plan", "people", "number", "number at night", "alternate", "backup", "contact", "agreement", "date of agreement", "power",
    /// "distance", "capacity", "services", "notify", "containers", "packing", "steps", "review", "reviewer", "signature"
    std::string what;
    std::string of;     ///< the person or backup place it is about; empty: the plan
    bool old = false;   ///< it is there, and has run out; else it is missing
    Instant since;      ///< missing: since the first plan from which on all lacked it; old: the first instant of it
    std::string text;   ///< a sentence without its stop
};

/// The contingency plan that holds: of those that are known, not void and of an `at` up to the instant, the last.
struct PlanAnswer {
    AnswerHead head;
    std::optional<EntryNumber> entry;  ///< none: there is no plan, and `plan` is empty
    Instant since;                     ///< its `at`
    std::string by;
    Plan plan;
    std::optional<Instant> review_due;   ///< the first instant at which its review has lapsed; none: nobody says how often
    std::vector<PlanFinding> findings;   ///< in the order of the plan's parts
};

/// Doses given that must be followed to their end, with what was done: those of the review list, or all of a lot (a recall).
struct FollowUpAnswer {
    AnswerHead head;
    std::optional<std::string> product, lot;  ///< of a recall
    struct Step {
        EntryNumber entry = 0;
        Instant at;
        std::string by, step, text;
    };
    struct Dose {
        EntryNumber give = 0;
        Instant given;
        std::string patient;
        HoldingKey holding;
        Doses doses;
        bool certain = true;
        std::string finding;      ///< of the review; of a dose apart "void", "clear" or "given later"
        std::vector<Step> steps;  ///< by (at, entry)
        std::string standing;     ///< the last of them; "none yet" where there is none
    };
    std::vector<Dose> doses;      ///< by the order of follow_up_standings, then by (given, give)
    std::vector<Dose> apart;      ///< with steps, but no longer on that list; in no count. By (given, give)
    struct Count {
        std::string name;
        std::int64_t gives = 0;
        Doses doses;
    };
    std::vector<Count> standings; ///< one for each of follow_up_standings; they add up to `whole`
    std::vector<Count> ever;      ///< one for each but "none yet": of the doses that ever had such a step
    Count whole;
};
/// "none yet", "decided", "told", "no answer", "answered", "repeated", "tested", "not needed"
const std::vector<std::string>& follow_up_standings();

/// The last training of each person in each topic, and until when it is good.
struct TrainingAnswer {
    AnswerHead head;
    std::optional<std::int64_t> every_days;  ///< the programme's
    struct Row {
        EntryNumber entry = 0;
        Instant at;
        std::string person, topic;
        std::optional<std::string> reference;
        std::optional<Instant> due;  ///< the first instant at which it has lapsed; none: nobody says how long it is good
        bool lapsed = false;
    };
    std::vector<Row> training;         ///< by due (those without last), person, topic
    std::vector<std::string> without;  ///< people of the plan that holds of whom no training is known, in calling order
};

}  // namespace coldtally
