// Readiness: what an inspector would find missing, and what was looked at.
#pragma once

#include "coldtally/upkeep.hpp"
#include "question/world.hpp"
#include "words/upkeep.hpp"

namespace coldtally::answers {

/// How far back is looked at where nobody says.
inline constexpr Duration usual_window{365 * 86400};
/// Since when excursions are looked at: no less than that, since one that belongs to no incident must not vanish.
Instant excursions_from(const ReadinessAnswer& answer);
/// `from`: how far back to look; not given: usual_window.
ReadinessAnswer readiness(World& world, std::optional<Instant> from);

/// What the parts of the answer share. Each part looks at its topics and adds them to the answer.
class Inspection {
public:
    Inspection(World& world, ReadinessAnswer& answer) : w(world), out(answer) {}

    World& w;
    ReadinessAnswer& out;

    using Finding = ReadinessAnswer::Finding;
    using Urgency = ReadinessAnswer::Urgency;
    using Matter = ReadinessAnswer::Matter;

    /// The topic that is looked at from here on.
    ReadinessAnswer::Topic& topic(Matter matter, Remark rule, Remark what);
    /// A topic that cannot be judged, and why.
    void not_judged(Matter matter, Remark why);
    /// A finding of the last topic, by its rule.
    Finding& find(Urgency urgency, Field where, Remark text, std::optional<Instant> since);
    /// One thing of the last topic was looked at.
    void looked(bool in_order) { ++out.topics.back().looked_at, out.topics.back().in_order += in_order; }

    const ProgrammeRules* rules() const { return w.known.rules() ? &w.known.rules()->fact : nullptr; }
    /// "so say the rules of Tern County (entry 3)"
    Remark by_programme() const;
    /// How often the programme wants a thing done; without it the topic is not judged.
    std::optional<std::int64_t> every_days(const std::string& thing) const;
    /// "every 30 days, so says ..."
    Remark every_words(std::int64_t days) const { return words::every_days(days, by_programme()); }
    /// The end of the day that is so many days after that of t.
    Instant due(Instant t, std::int64_t days) const;
    std::string local(Instant t) const { return w.known.zone().local_text(t); }

    /// When a place was in use, [from, until), ascending, within the time looked at: while it held doses; a storage
    /// unit that never held any, from the first that is known of it.
    std::vector<std::pair<std::int64_t, std::int64_t>> in_use(const std::string& place);
};

/// As the answer has them: by urgency, topic, since (not known first), where.
void sort_findings(std::vector<ReadinessAnswer::Finding>& findings);

// The parts, in the order of the topics.
void inspect_stock(Inspection& inspection);        ///< doses to discard, guidance
void inspect_vials(Inspection& inspection);        ///< opened vials
void inspect_incidents(Inspection& inspection);
void inspect_record(Inspection& inspection);       ///< the temperature record, checks
void inspect_devices(Inspection& inspection);      ///< certificates, logger readings
void inspect_counts(Inspection& inspection);
void inspect_papers(Inspection& inspection);  ///< the four below, and doses followed up, in the order of the topics
void inspect_plan(Inspection& inspection);
void inspect_training(Inspection& inspection);
void inspect_loans(Inspection& inspection);
void inspect_unrecorded(Inspection& inspection);  ///< what the rules ask for and the ledger keeps no record of
void inspect_retention(Inspection& inspection);

}  // namespace coldtally::answers
