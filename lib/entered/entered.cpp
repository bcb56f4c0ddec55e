#include "entered/entered.hpp"

#include <algorithm>
#include <deque>
#include <set>

#include "coldtally/error.hpp"
#include "coldtally/nearest.hpp"
#include "entered/typed_text.hpp"
#include "stock/lot_twins.hpp"
#include "text/json_text.hpp"
#include "trace/assignment.hpp"
#include "words/phrase.hpp"

namespace coldtally::answers {

using text::Json;

namespace {

template <class... Kinds>
std::vector<std::string> kinds_of(const std::variant<Kinds...>*) {
    return {std::string(Kinds::kind)...};
}

/// The kind as entries have it. Code::bad_value for what is none.
std::string kind_named(const std::string& name) {
    if (name == "takeback") return std::string(Void::kind);  // as people are told of it
    auto all = kinds_of(static_cast<const Fact*>(nullptr));
    if (std::ranges::find(all, name) != all.end()) return name;
    std::ranges::replace(all, std::string(Void::kind), std::string("takeback"));
    std::ranges::sort(all);
    std::string names;
    for (const auto& one : all) names += (names.empty() ? "" : ", ") + one;
    throw Error(Code::bad_value, "kind: " + text::quoted(name) + ": must be one of " + names +
                                     did_you_mean(nearest(name, all)));
}

/// Does any object in it have one of the keys with that text?
bool names(const Json& json, const std::vector<std::string_view>& keys, const std::string& value) {
    if (!json.is_structured()) return false;
    for (const auto& [key, one] : json.items()) {
        if (json.is_object() && one.is_string() && std::ranges::find(keys, key) != keys.end() &&
            one.get_ref<const std::string&>() == value)
            return true;
        if (names(one, keys, value)) return true;
    }
    return false;
}

std::string text_of(const Json& json, const char* field) {
    return json.contains(field) && json[field].is_string() ? json[field].get<std::string>() : std::string();
}

/// Goes through the entries once, in their order.
class Search {
public:
    Search(World& w, const EnteredRequest& request) : w_(w), asked_(request) {
        if (asked_.most < 0)
            throw Error(Code::bad_value, "most: " + std::to_string(asked_.most) + ": must be at least 1, or 0 for all");
        if (asked_.from && asked_.until && *asked_.until < *asked_.from)
            throw Error(Code::contradiction, "until: " + w.known.zone().local_text(*asked_.until) +
                                                 ": must not lie before from, " +
                                                 w.known.zone().local_text(*asked_.from));
        if (asked_.kind) asked_.kind = kind_named(*asked_.kind);
        if (asked_.text) asked_.text = without_case(*asked_.text);
        if (asked_.by) asked_.by = without_case(*asked_.by);
        of_something_ = asked_.place || asked_.product || asked_.lot || asked_.patient;
        if (of_something_) about_.resize(static_cast<std::size_t>(w.head.last_entry) + 1);
        if (asked_.place)
            for (const auto& a : trace::assignments(w.known))
                if (a.place == *asked_.place) probes_.push_back(a);
    }

    std::deque<EntryNumber> last;
    std::int64_t earlier = 0;

    void run() {
        w_.store.for_each_body(1, [&](EntryNumber n, Instant recorded, std::string_view kind, std::string_view body,
                                      std::string_view) {
            if (n > w_.head.last_entry) return;
            if (!is_asked(n, recorded, kind, body)) return;
            last.push_back(n);
            if (asked_.most > 0 && std::ssize(last) > asked_.most) {
                last.pop_front();
                ++earlier;
            }
        });
        if (last.empty()) must_be_known();
    }

private:
    bool is_asked(EntryNumber n, Instant recorded, std::string_view kind, std::string_view body) {
        const bool reads = of_something_ || asked_.from || asked_.until || asked_.by || asked_.text ||
                           w_.head.at < w_.head.known_on;
        const bool is_of_kind = !asked_.kind || kind == *asked_.kind;
        if (!reads) return is_of_kind;
        if (!is_of_kind && !of_something_ && !asked_.by) return false;
        const Json json = Json::parse(body, nullptr, false);
        if (!json.is_object()) w_.store.database().damaged("entry " + std::to_string(n) + " cannot be read");
        if (of_something_) about_[static_cast<std::size_t>(n)] = is_about(n, kind, json);
        const std::string by = text_of(json, "by");
        if (asked_.by) initials_.insert(by);
        return is_of_kind && (!of_something_ || about_[static_cast<std::size_t>(n)]) &&
               (!asked_.by || without_case(by) == *asked_.by) && is_then(n, recorded, kind, json) &&
               (!asked_.text || says(json));
    }

    bool is_about(EntryNumber n, std::string_view kind, const Json& json) const {
        for (const char* to : {"voids", "give", "loan"})  // of the kinds that are about another entry
            if (json.contains(to) && json[to].is_number_integer() && about(json[to].get<EntryNumber>())) return true;
        const auto fits = [&](const std::optional<std::string>& value, const std::vector<std::string_view>& keys) {
            return !value || names(json, keys, *value);
        };
        return fits(asked_.product, {"product"}) && fits(asked_.lot, {"lot"}) && fits(asked_.patient, {"patient"}) &&
               (fits(asked_.place, {"place", "container"}) || (kind == Readings::kind && was_there(n, json)));
    }
    bool about(EntryNumber n) const {
        return n > 0 && n < std::ssize(about_) && about_[static_cast<std::size_t>(n)];
    }

    bool was_there(EntryNumber n, const Json& json) const {
        const auto span = w_.store.batch_span(n);
        return std::ranges::any_of(probes_, [&](const auto& a) {
            return a.probe == text_of(json, "probe") && a.from <= span.last && a.until > span.first;
        });
    }

    bool is_in(std::int64_t first, std::int64_t last_one) const {
        return (!asked_.from || last_one >= asked_.from->seconds_since_1970()) &&
               (!asked_.until || first < asked_.until->seconds_since_1970());
    }
    bool is_then(EntryNumber n, Instant recorded, std::string_view kind, const Json& json) const {
        std::optional<Instant> at;
        if (json.contains("at") && json["at"].is_string())
            at = parse_instant(json["at"].get_ref<const std::string&>(), w_.known.zone());
        if (at && *at > w_.head.at) return false;
        if (!asked_.from && !asked_.until) return true;
        const auto is_instant_in = [&](Instant t) { return is_in(t.seconds_since_1970(), t.seconds_since_1970()); };
        if (is_instant_in(recorded) || (at && is_instant_in(*at))) return true;
        if (kind != Readings::kind) return false;
        const auto span = w_.store.batch_span(n);
        return is_in(span.first, span.last);
    }

    bool says(const Json& json) const {
        bool found = false;
        for_each_typed(json, [&](const std::string& typed) {
            found = found || without_case(typed).find(*asked_.text) != std::string::npos;
        });
        return found;
    }

    /// A slip of the name must not look like "nothing was entered".
    void must_be_known() const {
        if (asked_.place && !w_.known.places.contains(*asked_.place)) w_.place(*asked_.place);
        if (asked_.product && !w_.known.products.contains(*asked_.product)) {
            std::vector<std::string> all;
            for (const auto& [id, definitions] : w_.known.products) all.push_back(id);
            throw Error(Code::not_known, "product: " + text::quoted(*asked_.product) +
                                             ": no product of this id is known" +
                                             did_you_mean(nearest(*asked_.product, all)));
        }
        if (asked_.lot && w_.lots_of(*asked_.lot).empty()) {
            std::vector<std::string> twins;
            for (const auto& lot : lot_twins(w_, *asked_.lot)) twins.push_back(text::quoted(lot.number));
            throw Error(Code::not_known, "lot: " + text::quoted(*asked_.lot) + ": no lot of this number is known" +
                                             did_you_mean(twins));
        }
        if (!asked_.by) return;
        const auto is_they = [&](const auto& one) { return without_case(one) == *asked_.by; };
        if (std::ranges::any_of(initials_, is_they)) return;
        throw Error(Code::not_known, "by: " + text::quoted(*asked_.by) + ": nobody of these initials has entered "
                                         "anything; there are " +
                                         text::quoted_list({initials_.begin(), initials_.end()}));
    }

    World& w_;
    EnteredRequest asked_;
    bool of_something_ = false;
    std::vector<bool> about_;  // by number: is it about what is asked for?
    std::vector<trace::Assignment> probes_;
    std::set<std::string> initials_;
};

Entry shown(const World& w, EntryNumber number, bool patients) {
    Entry out = w.store.named_entry(number);
    if (auto* give = std::get_if<Give>(&out.fact); give && !patients) give->patient.clear();
    return out;
}

std::int64_t readings_of(const World& w, const Entry& entry) {
    return std::holds_alternative<Readings>(entry.fact) ? w.store.batch_span(entry.number).readings : 0;
}

}  // namespace

std::map<EntryNumber, EnteredAnswer::TakenBack> taken_back(const World& w) {
    std::map<EntryNumber, EnteredAnswer::TakenBack> out;
    w.store.for_each_knowledge(w.head.last_entry, [&](const Entry& e) {
        if (const auto* v = std::get_if<Void>(&e.fact))
            out[v->voids] = {e.number, e.at.value_or(*e.recorded), e.by, v->reason};
    });
    return out;
}

EnteredAnswer entered(World& w, const EnteredRequest& request) {
    EnteredAnswer out;
    out.head = w.head;
    out.filtered = request.from || request.until || request.place || request.product || request.lot ||
                   request.patient || request.kind || request.by || request.text;
    if (request.from || request.until)
        out.head.window = window_words(request.from.value_or(w.store.recorded(1)), request.until.value_or(w.head.at),
                                       w.head.at, w.known.zone());
    Search search(w, request);
    search.run();
    out.earlier = search.earlier;
    const auto taken = taken_back(w);
    for (const EntryNumber number : search.last) {
        EnteredAnswer::Row row;
        row.entry = shown(w, number, request.patients);
        if (std::holds_alternative<Readings>(row.entry.fact)) {
            const auto span = w.store.batch_span(number);
            row.readings = span.readings;
            row.first = Instant(span.first);
            row.last = Instant(span.last);
        }
        const auto* undo = std::get_if<Void>(&row.entry.fact);
        if (undo) {
            row.takes_back = shown(w, undo->voids, false);
            row.takes_back_readings = readings_of(w, *row.takes_back);
        }
        if (const auto it = taken.find(number); it != taken.end()) row.taken_back = it->second;
        if (!row.taken_back && !undo && number > 1)
            row.takeback = words::task("takeback", {{"", std::to_string(number)}, {"", "WHY"}});
        out.entries.push_back(std::move(row));
    }
    return out;
}

}  // namespace coldtally::answers
