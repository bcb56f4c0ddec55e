// View: a ledger as of one instant and one state of knowledge. All questions are asked of one.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "coldtally/conditions.hpp"
#include "coldtally/entered.hpp"
#include "coldtally/error.hpp"
#include "coldtally/handovers.hpp"
#include "coldtally/immunizations.hpp"
#include "coldtally/incidents.hpp"
#include "coldtally/journeys.hpp"
#include "coldtally/question.hpp"
#include "coldtally/stewardship.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/today.hpp"
#include "coldtally/upkeep.hpp"

namespace coldtally {

/// Made by Ledger::as_of. What its answers rest on is the same for all of them: the ledger as it was when the view was
/// made, whatever is posted meanwhile. What is known is loaded once, and what was read of a place's temperature is kept
/// from one question to the next; no answer depends on what was asked before it.
///
/// While there is a view its ledger can be read, and posts nothing (Code::contradiction), and other processes that
/// write wait for it as for any reader: ask, let it go, then print. It must not outlive its ledger, and belongs to the
/// ledger's thread.
///
/// Instants of windows are seconds; a window [from, until) is cut to the instant asked about; Code::contradiction where
/// until lies before from. Every question may throw Code::damaged, Code::busy and Code::machine. A question that throws
/// leaves the view as it was. Cost: what holds doses then, and the readings of its places since those came; a question
/// about a window reads that.
class View {
public:
    ~View();
    View(View&&) noexcept;
    View& operator=(View&&) noexcept;

    /// What every answer begins with: ledger, instant, known-on, last entry.
    const AnswerHead& head() const noexcept;
    /// The zone of the site entry that holds among those known.
    const Zone& zone() const noexcept;
    /// The scale in which the site keeps its sheets: that of the last check of most places, else of most probes; C
    /// where there are none.
    Scale sheet_scale() const;

    /// Doses by holding, with their list and last day, and the accounts, which add up to 0.
    StockAnswer stock() const;
    /// Every holding with doses on exactly one list, with all its reasons.
    ListsAnswer lists() const;
    /// What a scanned code says and what the ledger knows of it; errors of parse_gs1_scan.
    ScanAnswer scan(std::string_view text) const;
    /// Doses given that may need a second look, by (at, entry); `all`: also the doses that are clear.
    ReviewAnswer review(bool all = false) const;
    /// Doses given as records of another system: every give that stands, or those of one patient's token.
    ImmunizationsAnswer immunizations(const std::optional<std::string>& patient) const;
    /// Of a place. Code::not_known where it is not defined.
    ExcursionsAnswer excursions(const std::string& place, Instant from, Instant until) const;
    /// Of a place. `activation_K`: activation energy over the gas constant, in kelvin, for the mean kinetic
    /// temperature; Code::bad_value outside 1 to 1000000. Code::not_known where the place is not defined.
    ConditionsAnswer conditions(const std::string& place, Instant from, Instant until,
                                std::int64_t activation_K = 10000) const;
    /// A unit's history by month. `from` not given: the first that is known of the place, its definition as it was
    /// posted, a reading or a check; `until` not given: the instant asked about. Errors as of conditions.
    UnitAnswer unit(const std::string& place, std::optional<Instant> from, std::optional<Instant> until,
                    std::int64_t activation_K = 10000) const;
    /// What to move out of a place, and whether the container suits it. Code::not_known where the place or the
    /// container is not defined.
    MoveListAnswer move_list(const std::string& place, const std::optional<std::string>& container) const;
    /// The last journey of a container. `limit`: how long one may last; not given: what the programme's rules say of
    /// it. Code::not_known where the container has not departed.
    TripAnswer trip(const std::string& container, std::optional<Duration> limit) const;
    /// A holding's history with what is behind each number. Code::not_known where there is no such holding.
    Explanation explain(const HoldingKey& holding) const;
    /// Readings of a probe, as indicated. Code::not_known where the probe is not defined.
    ReadingsAnswer readings(const std::string& probe, Instant from, Instant until) const;
    /// What is known of a place's temperature. Code::not_known where the place is not defined.
    TraceAnswer trace(const std::string& place, Instant from, Instant until) const;
    /// When the doses of a lot were where. Code::not_known where the lot is not defined.
    StaysAnswer stays(const std::string& product, const std::string& lot) const;

    /// Which excursions belong to which incident; of a place, or of the places a probe was in then (none: all).
    /// `others`: with how many there are outside of that, which looks at all that is recorded.
    IncidentsAnswer incidents(const std::optional<std::string>& place, const std::optional<std::string>& probe,
                              Instant from, Instant until, bool others = true) const;
    /// The whole of an incident, or (`maker`) what concerns one maker's products. Code::not_known where there is none
    /// of it. It is for others to read: patients are a number in it. `patients`: their tokens, too.
    IncidentAnswer incident(const std::string& id, const std::optional<std::string>& maker,
                            bool patients = false) const;
    /// The programme's rules in force, and which of their conditions were met in a place (none: in each).
    /// Code::not_known where the place is not defined.
    RulesAnswer rules(const std::optional<std::string>& place, Instant from, Instant until) const;

    /// What is to be used first, and what will be left over.
    DatesAnswer dates() const;
    /// `all`: also the loans that are repaid; `patients`: with the tokens of those that the doses were given to.
    LoansAnswer loans(bool all = false, bool patients = false) const;
    /// Doses in and out of a period, by fund and product.
    AccountabilityAnswer accountability(Instant from, Instant until) const;

    /// The contingency plan in force, and what is missing or old in it.
    PlanAnswer plan() const;
    /// The doses of the review list, or with `lot` all that were given of that lot, and what was done about each.
    /// Code::not_defined where no such lot is known; Code::ambiguous where it is one of several products and none is
    /// stated; Code::missing_field for a product without a lot.
    FollowUpAnswer follow_up(const std::optional<std::string>& lot, const std::optional<std::string>& product) const;
    TrainingAnswer training() const;

    /// What must be known and done on the day of the instant: what must not be used, units, incidents, last days,
    /// checks still to make, papers. Excursions are looked at 365 days back.
    TodayAnswer today() const;
    /// What an inspector would find missing, and all that was looked at. `from`: how far back checks, the temperature
    /// record and certificates are looked at; not given: 365 days. Code::contradiction where it lies after the instant.
    ReadinessAnswer readiness(std::optional<Instant> from) const;

    /// What was entered: the last entries that are as asked, and how many more. Code::bad_value for a kind that is
    /// none; where nothing is as asked, Code::not_known for a place, product or lot that is not known, or for initials
    /// that nobody used; Code::contradiction where until lies before from.
    EnteredAnswer entered(const EnteredRequest& request) const;
    /// What is defined under a name, as it holds, with its history. Code::bad_value for a kind that is none,
    /// Code::not_known where nothing goes by that name.
    ShownAnswer show(const ShowRequest& request) const;

    /// The history of doses as they left by a transfer, for the site that receives them. Code::not_known where no
    /// transfer of this number stands.
    HandoverAnswer handover(EntryNumber transfer) const;

private:
    friend class Ledger;
    struct Impl;
    explicit View(std::unique_ptr<Impl> impl);
    std::unique_ptr<Impl> impl_;
};

}  // namespace coldtally
