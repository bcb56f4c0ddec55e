#include "coldtally/view.hpp"

#include "conditions/conditions.hpp"
#include "conditions/excursions.hpp"
#include "conditions/incidents.hpp"
#include "conditions/place_trace.hpp"
#include "conditions/readings.hpp"
#include "conditions/rule_times.hpp"
#include "conditions/unit.hpp"
#include "entered/entered.hpp"
#include "entered/show.hpp"
#include "incidents/follow_up.hpp"
#include "incidents/given_in_doubt.hpp"
#include "incidents/incident_report.hpp"
#include "incidents/overtaken.hpp"
#include "question/sheet_scale.hpp"
#include "stock/accountability.hpp"
#include "stock/dates.hpp"
#include "stock/explain.hpp"
#include "stock/handover.hpp"
#include "stock/immunizations.hpp"
#include "stock/journeys.hpp"
#include "stock/lists.hpp"
#include "stock/loans.hpp"
#include "stock/review.hpp"
#include "stock/scan.hpp"
#include "stock/stays.hpp"
#include "stock/stock.hpp"
#include "text/limits.hpp"
#include "upkeep/plan.hpp"
#include "upkeep/readiness.hpp"
#include "upkeep/today.hpp"
#include "upkeep/training.hpp"
#include "view_impl.hpp"
#include "words/file.hpp"

namespace coldtally {

void rows_contradict(const std::string& path) {
    throw Refusal(Code::damaged, words::rows_contradict(ledger::shown_path(path), words::task("verify")));
}

namespace {

void check_activation(std::int64_t activation_K) {
    if (activation_K < 1 || activation_K > limits::activation_K)
        throw Error(Code::bad_value, "activation: " + std::to_string(activation_K) + ": must be 1 to 1000000 K");
}

}  // namespace

View::View(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
View::~View() = default;
View::View(View&&) noexcept = default;
View& View::operator=(View&&) noexcept = default;

const AnswerHead& View::head() const noexcept { return impl_->world.head; }
const Zone& View::zone() const noexcept { return impl_->known->zone(); }
Scale View::sheet_scale() const {
    return impl_->ask([](answers::World& w) { return answers::sheet_scale(w.store, w.known); });
}

StockAnswer View::stock() const { return impl_->ask(answers::stock); }
ListsAnswer View::lists() const { return impl_->ask(answers::lists); }
ScanAnswer View::scan(std::string_view text) const {
    return impl_->ask([&](answers::World& w) { return answers::scan(w, text); });
}

ReviewAnswer View::review(bool all) const {
    return impl_->ask([&](answers::World& w) {
        ReviewAnswer out = answers::review(w, all);
        answers::add_in_doubt(w, out, all);
        return out;
    });
}

ImmunizationsAnswer View::immunizations(const std::optional<std::string>& patient) const {
    return impl_->ask([&](answers::World& w) {
        ImmunizationsAnswer out = answers::immunizations(w, patient);
        answers::add_in_doubt(w, out);
        return out;
    });
}

ExcursionsAnswer View::excursions(const std::string& place, Instant from, Instant until) const {
    return impl_->ask([&](answers::World& w) { return answers::excursions(w, place, from, until); });
}

ConditionsAnswer View::conditions(const std::string& place, Instant from, Instant until,
                                  std::int64_t activation_K) const {
    check_activation(activation_K);
    return impl_->ask([&](answers::World& w) { return answers::conditions(w, place, from, until, activation_K); });
}

UnitAnswer View::unit(const std::string& place, std::optional<Instant> from, std::optional<Instant> until,
                      std::int64_t activation_K) const {
    check_activation(activation_K);
    return impl_->ask([&](answers::World& w) { return answers::unit(w, place, from, until, activation_K); });
}

MoveListAnswer View::move_list(const std::string& place, const std::optional<std::string>& container) const {
    return impl_->ask([&](answers::World& w) { return answers::move_list(w, place, container); });
}

TripAnswer View::trip(const std::string& container, std::optional<Duration> limit) const {
    return impl_->ask([&](answers::World& w) { return answers::trip(w, container, limit); });
}

Explanation View::explain(const HoldingKey& holding) const {
    return impl_->ask([&](answers::World& w) { return answers::explain(w, holding); });
}

ReadingsAnswer View::readings(const std::string& probe, Instant from, Instant until) const {
    return impl_->ask([&](answers::World& w) { return answers::readings(w, probe, from, until); });
}

TraceAnswer View::trace(const std::string& place, Instant from, Instant until) const {
    return impl_->ask([&](answers::World& w) { return answers::place_trace(w, place, from, until); });
}

StaysAnswer View::stays(const std::string& product, const std::string& lot) const {
    return impl_->ask([&](answers::World& w) { return answers::stays(w, product, lot); });
}

IncidentsAnswer View::incidents(const std::optional<std::string>& place, const std::optional<std::string>& probe,
                                Instant from, Instant until, bool others) const {
    return impl_->ask([&](answers::World& w) { return answers::incidents(w, place, probe, from, until, others); });
}

IncidentAnswer View::incident(const std::string& id, const std::optional<std::string>& maker, bool patients) const {
    return impl_->ask([&](answers::World& w) {
        IncidentAnswer out = answers::incident(w, id, maker);
        answers::add_overtaken(w, out);
        if (!patients)
            for (auto& dose : out.given) dose.patient.clear();
        return out;
    });
}

RulesAnswer View::rules(const std::optional<std::string>& place, Instant from, Instant until) const {
    return impl_->ask([&](answers::World& w) { return answers::rules(w, place, from, until); });
}

DatesAnswer View::dates() const { return impl_->ask(answers::dates); }

LoansAnswer View::loans(bool all, bool patients) const {
    return impl_->ask([&](answers::World& w) {
        LoansAnswer out = answers::loans(w, all);
        if (!patients)
            for (auto& loan : out.loans) loan.patient.clear();
        return out;
    });
}

AccountabilityAnswer View::accountability(Instant from, Instant until) const {
    return impl_->ask([&](answers::World& w) { return answers::accountability(w, from, until); });
}

PlanAnswer View::plan() const { return impl_->ask(answers::plan); }

FollowUpAnswer View::follow_up(const std::optional<std::string>& lot, const std::optional<std::string>& product) const {
    return impl_->ask([&](answers::World& w) { return answers::follow_up(w, lot, product); });
}

TrainingAnswer View::training() const { return impl_->ask(answers::training); }

TodayAnswer View::today() const { return impl_->ask(answers::today); }

ReadinessAnswer View::readiness(std::optional<Instant> from) const {
    return impl_->ask([&](answers::World& w) { return answers::readiness(w, from); });
}

EnteredAnswer View::entered(const EnteredRequest& request) const {
    return impl_->ask([&](answers::World& w) { return answers::entered(w, request); });
}

ShownAnswer View::show(const ShowRequest& request) const {
    return impl_->ask([&](answers::World& w) { return answers::show(w, request); });
}

HandoverAnswer View::handover(EntryNumber transfer) const {
    return impl_->ask([&](answers::World& w) { return answers::handover(w, transfer); });
}

}  // namespace coldtally
