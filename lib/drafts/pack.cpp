#include "drafts/pack.hpp"

#include <algorithm>
#include <set>

#include "coldtally/error.hpp"
#include "conditions/fit.hpp"
#include "drafts/do_not_use.hpp"
#include "drafts/draft.hpp"
#include "drafts/draft_warnings.hpp"
#include "drafts/filling.hpp"
#include "drafts/late_arrivals.hpp"
#include "drafts/naming.hpp"
#include "stock/journeys.hpp"
#include "stock/which.hpp"
#include "words/conditions.hpp"
#include "words/drafts.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

constexpr std::size_t longest_mark = 64;

/// What both have in common: the instant, the checks, the warnings.
class Batch {
public:
    Batch(const ledger::Store& store, const std::string& by, const std::optional<std::string>& at,
          const std::optional<std::string>& note, Instant now)
        : known_(ledger::Known::load(store, store.tip().entry)),
          by_(by),
          note_(note),
          head_(head_of(store, Question{instant(store, at, now), std::nullopt}, now)),
          world(store, head_, known_) {
        if (!at) out.filled.push_back(words::at_instant(known_.zone().local_text(world.head.at)));
    }

    enum class Leaving { none, some, all };
    /// `not_measured`: the warning where no temperature is stated. A reading of the instant at which doses leave is not
    /// of theirs any more; one that is out of range is noted a second before, so that it stays with them.
    void check(const std::string& place, const std::optional<std::string>& stated_text,
               const words::Says<1>& not_measured, Leaving leaving = Leaving::none) {
        if (!stated_text) {
            out.warnings.push_back(not_measured(text::quoted(place)));
            return;
        }
        std::string number = *stated_text;
        text::Json fields = {{"place", place}};
        if (!number.empty() && (number.back() == 'C' || number.back() == 'F')) {
            fields["scale"] = std::string(1, number.back());
            number.pop_back();
        }
        Filling(world, out.filled).scale_of(fields);
        Check check;
        check.place = place;
        try {
            check.temperature = Temperature::parse(number, stated(fields, "scale") == "F" ? Scale::F : Scale::C);
        } catch (const Error& e) {
            throw Error(e.code(), "temperature of " + text::quoted(place) + ": " + e.what());
        }
        const bool before = leaving != Leaving::none && is_out_of_range(check);
        add(std::move(check), leaving == Leaving::all);
        if (!before) return;
        out.entries.back().at = world.head.at - Duration(1);
        out.filled.push_back(
            words::noted_a_second_before(text::quoted(place), known_.zone().local_text(*out.entries.back().at)));
    }

    template <class F>
    void add(F fact, bool all_leave = false) {
        Entry e;
        e.at = world.head.at;
        e.by = by_;
        e.note = note_;
        e.fact = std::move(fact);
        warn(world, e, out, all_leave);
        out.entries.push_back(std::move(e));
    }

    /// The batch, with the holds of incidents that were noticed in a place after doses came there.
    Drafted whole(const ledger::Store& store, Instant now) {
        const auto so_far = out.entries;
        for (const Entry& e : so_far)
            if (std::holds_alternative<Move>(e.fact))
                LateArrival(store, known_, now, e).finish(std::nullopt, false, out);
        return std::move(out);
    }

private:
    bool is_out_of_range(const Check& check) {
        return !is_in(world.place(check.place).range, check.temperature.scale(), check.temperature.thousandths());
    }

    Instant instant(const ledger::Store& store, const std::optional<std::string>& at, Instant now) const {
        if (!at) return head_of(store, Question{}, now).at;
        try {
            return typed_instant(*at, known_.zone(), now);
        } catch (const Error& e) {
            throw Error(e.code(), std::string("at: ") + e.what());
        }
    }

    const ledger::Known known_;
    std::string by_;
    std::optional<std::string> note_;
    AnswerHead head_;

public:
    World world;
    Drafted out;
};

bool has_probe(World& w, const std::string& place) {
    for (const auto& a : trace::assignments(w.known))
        if (a.place == place && a.from <= w.at && a.until > w.at) return true;
    return false;
}

}  // namespace

Drafted pack(const ledger::Store& store, const PackRequest& request, Instant now) {
    Batch batch(store, request.by, request.at, request.note, now);
    World& w = batch.world;
    if (request.place == request.container)
        throw Error(Code::contradiction, "container: " + text::quoted(request.container) +
                                             ": must be another place than the one that is emptied");
    auto rows = move_list(w, request.place, request.container).holdings;
    const std::size_t there = rows.size();
    if (w.place(request.container).type != PlaceType::transport_container)
        throw Error(Code::contradiction, "container: " + text::quoted(request.container) +
                                             ": must be a transport container, and is a " +
                                             std::string(place_type_name(w.place(request.container).type)) +
                                             "; doses go into another place by a move");
    for (const auto& lot : request.lots)
        if (std::none_of(rows.begin(), rows.end(), [&](const auto& row) { return row.holding.lot == lot; }))
            throw Error(Code::not_there,
                        "lot: " + text::quoted(lot) + ": no doses are in " + text::quoted(request.place) + " then");
    if (!request.lots.empty())
        std::erase_if(rows, [&](const auto& row) {
            return std::find(request.lots.begin(), request.lots.end(), row.holding.lot) == request.lots.end();
        });

    std::vector<Remark> names;
    for (const auto& row : rows)
        if (*row.fit != Fit::suited) names.push_back(lot_named(row.holding));
    const auto unsuited = words::semicolons(names);
    if (unsuited && !request.take_unsuited && !request.leave_unsuited)
        throw Refusal(Code::contradiction,
                      words::unsuited_doses(text::quoted(request.container), *unsuited,
                                            words::parameter("unsuited", "take"),
                                            words::parameter("unsuited", "leave")));
    if (request.leave_unsuited) {
        if (unsuited) batch.out.warnings.push_back(words::left_unsuited(text::quoted(request.place), *unsuited));
        std::erase_if(rows, [](const auto& row) { return *row.fit != Fit::suited; });
    }
    if (rows.empty())
        throw Error(Code::not_there, "place: " + text::quoted(request.place) + ": nothing in it to pack then");
    const bool not_known = !has_probe(w, request.container) && !request.container_temperature;
    if (not_known)
        batch.out.warnings.push_back(words::container_not_known(text::quoted(request.container)));

    batch.check(request.place, request.place_temperature, words::departure_not_measured,
                rows.size() == there ? Batch::Leaving::all : Batch::Leaving::some);
    if (!not_known) batch.check(request.container, request.container_temperature, words::departure_not_measured);
    Trip trip;
    trip.container = request.container;
    trip.destination = request.destination;
    trip.reason = request.reason;
    trip.packed_by = request.packed_by.value_or(request.by);
    trip.approval = request.approval;
    trip.coolant = request.coolant;
    trip.conditioning = request.conditioning;
    batch.add(std::move(trip));
    for (const auto& row : rows) {
        const auto& k = row.holding;
        batch.add(Move{k.product, k.lot, k.fund, k.place, k.mark, request.container, k.mark, row.doses});
    }
    return batch.whole(store, now);
}

Drafted unpack(const ledger::Store& store, const UnpackRequest& request, Instant now) {
    Batch batch(store, request.by, request.at, request.note, now);
    World& w = batch.world;
    if (request.place == request.container)
        throw Error(Code::contradiction,
                    "place: " + text::quoted(request.place) + ": must be another place than the container");
    w.place(request.place);
    const auto rows = move_list(w, request.container, std::nullopt).holdings;
    if (rows.empty())
        throw Error(Code::not_there, "container: " + text::quoted(request.container) + ": no doses are in it then");

    std::vector<std::optional<Doses>> counted(rows.size());
    for (const auto& [name, doses] : request.counts) {
        std::vector<std::size_t> match;
        for (std::size_t i = 0; i < rows.size(); ++i)
            if (rows[i].holding.lot == name) match.push_back(i);
        if (match.empty())
            for (std::size_t i = 0; i < rows.size(); ++i)
                if (rows[i].holding.lot + "," + rows[i].holding.fund + "," + rows[i].holding.mark == name)
                    match.push_back(i);
        if (match.empty())
            throw Error(Code::not_there, "count: " + text::quoted(name) + ": no such lot is in the container");
        if (match.size() > 1) {
            std::vector<Remark> choices;
            for (const auto i : match) {
                const auto& k = rows[i].holding;
                choices.push_back(choice_of({stated_as("count", k.lot + "," + k.fund + "," + k.mark + "=DOSES")},
                                            words::doses_in_book(rows[i].doses.count())));
            }
            throw WhichOne(words::counted_which(text::quoted(name)), std::move(choices));
        }
        if (counted[match[0]]) throw Error(Code::contradiction, "count: " + text::quoted(name) + ": is counted twice");
        counted[match[0]] = Doses(doses);
    }
    std::vector<Remark> missing;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (!counted[i]) missing.push_back(words::in_the_book(lot_named(rows[i].holding), rows[i].doses.count()));
    if (!missing.empty() && !request.as_listed)
        throw Error(Code::missing_field,
                    "count: not counted: " + english().say(*words::semicolons(missing)) +
                        "; count them, or say that they are as listed");

    const auto loads = departures(w, request.container);
    const auto* departure = loads.empty() ? nullptr : loads.front();
    const std::string own = "trip " + w.known.zone().local_text(departure ? Instant(departure->at) : w.head.at);
    const bool off_site = std::any_of(loads.begin(), loads.end(),
                                      [](const auto* load) { return load->fact.reason == "off-site clinic"; });
    batch.check(request.container, request.container_temperature, words::arrival_not_measured, Batch::Leaving::all);
    batch.check(request.place, request.place_temperature, words::arrival_not_measured);
    std::set<HoldingKey> targets;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto& k = rows[i].holding;
        const Doses doses = counted[i].value_or(rows[i].doses);  // as listed: counted, too
        batch.add(Count{k.place, k.product, k.lot, k.fund, k.mark, doses});
        if (doses.count() == 0) continue;
        HoldingKey target{request.place, k.product, k.lot, k.fund, request.mark.value_or(k.mark)};
        if (!request.mark && (off_site || listed(w, target))) {
            target.mark = k.mark.empty() ? own : k.mark + ", " + own;
            if (target.mark.size() > longest_mark)
                throw Error(Code::bad_value, "mark: " + text::quoted(target.mark) +
                                                 ": too long; state the mark under which they are kept apart");
            batch.out.filled.push_back(words::mark_keeps_apart(text::quoted(target.mark), text::quoted(k.lot)));
        }
        if (!targets.insert(target).second)
            batch.out.warnings.push_back(words::joins_two(text::quoted(k.lot), text::quoted(request.place)));
        const Move move{k.product, k.lot, k.fund, k.place, k.mark, request.place, target.mark, doses};
        if (auto said = do_not_use(w, move)) batch.out.warnings.push_back(std::move(*said));
        batch.add(move);
    }
    if (departure) {
        Trip arrival;
        arrival.container = request.container;
        arrival.step = TripStep::arrival;
        arrival.received_by = request.received_by.value_or(request.by);
        batch.add(std::move(arrival));
    }
    return batch.whole(store, now);
}

}  // namespace coldtally::answers
