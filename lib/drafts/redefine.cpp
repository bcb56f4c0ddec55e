#include "drafts/redefine.hpp"

#include <algorithm>
#include <map>

#include "coldtally/error.hpp"
#include "drafts/filling.hpp"
#include "drafts/limit_doubts.hpp"
#include "drafts/read_back.hpp"
#include "entries/print.hpp"
#include "words/definitions.hpp"

namespace coldtally::answers {

using text::Json;

namespace {

/// What can be dropped of a kind; of a name with a star one of several is named after it: "allowance 2".
const std::map<std::string, std::vector<std::string>>& droppable() {
    static const std::map<std::string, std::vector<std::string>> names = {
        {"site", {"unmonitored_limit_s", "stale_after_s"}},
        {"product",
         {"low", "high", "freeze_limit", "allowances", "allowance *", "beyond_use", "beyond_use *", "cvx", "gtin",
          "gtin *", "doses_per_vial"}},
        {"lot", {}},
        {"place", {"low", "high", "max_gap_s", "max_check_gap_s", "near_s"}},
        {"probe", {"serial"}},
        {"maker", {"contact", "phone", "email"}},
    };
    return names;
}

bool begins(const std::string& name, const std::string& with) {
    return name.size() > with.size() && name.compare(0, with.size(), with) == 0;
}

bool can_be_dropped(const std::string& kind, const std::string& name) {
    for (const auto& one : droppable().at(kind))
        if (name == one || (one.ends_with('*') && begins(name, one.substr(0, one.size() - 1)))) return true;
    return false;
}

std::string names_of(const std::string& kind) {
    std::string out;
    for (const auto& one : droppable().at(kind))
        out += (out.empty() ? "" : ", ") + (one == "allowance *"    ? "allowance 1"
                                            : one == "beyond_use *" ? "beyond_use EVENT"
                                            : one == "gtin *"       ? "gtin NUMBER"
                                                                    : one);
    return out.empty() ? "there is nothing to drop of a " + kind : "must be one of " + out;
}

/// A word that came to stand where the name does, as after the first of several that were to be dropped.
void must_be_name(const std::string& kind, const std::string& name) {
    std::string drop = name;
    std::replace(drop.begin(), drop.end(), '-', '_');
    if (name.empty() || !can_be_dropped(kind, drop)) return;
    throw Refusal(Code::bad_value,
                  words::name_to_drop(text::quoted(name), kind, words::parameter("without", name)));
}

/// The definition of the same thing that holds, with its number; the number is 0 where there is none.
struct Held {
    EntryNumber entry = 0;
    std::optional<Fact> fact;
};
template <class T>
Held held(const std::map<std::string, std::vector<ledger::Numbered<T>>>& all, const std::string& id) {
    const auto it = all.find(id);
    if (it == all.end() || it->second.empty()) return {};
    return {it->second.back().entry, it->second.back().fact};
}
Held held(const ledger::Known& known, const std::string& kind, const Json& fields) {
    if (kind == "site") return {known.sites.back().entry, known.sites.back().fact};
    if (kind == "product") return held(known.products, stated(fields, "product"));
    if (kind == "place") return held(known.places, stated(fields, "place"));
    if (kind == "probe") return held(known.probes, stated(fields, "probe"));
    if (kind == "maker") return held(known.makers, stated(fields, "product"));
    return {};
}

/// How people are told of a field that was kept.
Field kept_words(const std::string& field) {
    static const std::map<std::string_view, Remark> names = {
        {"name", words::stated_name},
        {"zone", words::kept_zone},
        {"unmonitored_limit_s", words::kept_unmonitored_limit},
        {"stale_after_s", words::kept_stale_after},
        {"range", words::stated_range},
        {"low", words::stated_low},
        {"high", words::stated_high},
        {"freeze_limit", words::stated_freeze_limit},
        {"beyond_use", words::kept_periods},
        {"doses_per_vial", words::kept_doses_per_vial},
        {"type", words::stated_type},
        {"max_gap_s", words::kept_max_gap},
        {"max_check_gap_s", words::kept_max_check_gap},
        {"near_s", words::kept_near},
        {"scale", words::kept_scale},
        {"serial", words::kept_serial},
        {"contact", words::stated_contact},
        {"phone", words::kept_phone},
        {"email", words::stated_email},
    };
    const auto it = names.find(field);
    return it == names.end() ? Field(field) : Field(it->second);  // cvx, gtin: they are called that everywhere
}

/// Is it a limit in one scale?
bool is_half(const Json& limit) {
    return limit.is_object() && limit.size() == 1 && (limit.contains("C") || limit.contains("F"));
}

/// A limit that is stated in one scale of two: the same number means the limit as it is known; another must say both.
void whole_limit(Json& limit, const Json& before, const std::string& name) {
    if (!is_half(limit) || before.size() < 2) return;
    const char* scale = limit.contains("C") ? "C" : "F";
    const auto same = [&] {
        const Json& mine = limit[scale];
        try {
            const std::string text = mine.is_string() ? mine.get<std::string>() : mine.dump();
            return Temperature::parse(text, Scale(*scale)) ==
                   Temperature::parse(before[scale].get<std::string>(), Scale(*scale));
        } catch (const Error&) {
            return true;  // is said of the entry
        }
    };
    if (same()) {
        if (limit[scale].is_string() || limit[scale].is_number_integer()) limit = before;
        return;
    }
    throw Error(Code::missing_field, name + ": must be stated in both scales, as it is known: " +
                                         before["C"].get<std::string>() + " °C (" + before["F"].get<std::string>() +
                                         " °F); to state one alone, drop it by name first (without " + name + ")");
}

/// Takes what has that name out of the definition that holds, that of `entry`. Code::contradiction where it states
/// none.
void drop(Json& old, const std::string& name, EntryNumber entry) {
    const auto refuse = [&] {
        throw Error(Code::contradiction, "without: " + text::quoted(name) + ": the definition that holds (entry " +
                                             std::to_string(entry) + ") states none");
    };
    const auto drop_of = [&](const char* part, const std::string& key) {
        if (!old.contains(part) || !old[part].contains(key)) refuse();
        old[part].erase(key);
    };
    if (name == "low" || name == "high")
        drop_of("range", name);
    else if (begins(name, "beyond_use "))
        drop_of("beyond_use", name.substr(11));
    else if (begins(name, "gtin ")) {
        const auto it = old.contains("gtin")
                            ? std::find(old["gtin"].begin(), old["gtin"].end(), Json(name.substr(5)))
                            : Json::iterator();
        if (!old.contains("gtin") || it == old["gtin"].end()) refuse();
        old["gtin"].erase(it);
    } else if (begins(name, "allowance ")) {
        const std::size_t there = old.contains("allowances") ? old["allowances"].size() : 0;
        bool one_of_them = false;
        for (std::size_t n = 1; n <= there; ++n)
            one_of_them = one_of_them || name == "allowance " + std::to_string(n);
        if (!one_of_them) refuse();
    } else if (old.erase(name) == 0) {
        refuse();
    }
}

}  // namespace

std::optional<Fact> held(const ledger::Known& known, const ledger::Store& store, const Fact& fact) {
    if (std::holds_alternative<Site>(fact))
        return known.sites.empty() ? std::nullopt : std::optional<Fact>(known.site());
    if (const auto* p = std::get_if<Product>(&fact)) return held(known.products, p->product).fact;
    if (const auto* p = std::get_if<Place>(&fact)) return held(known.places, p->place).fact;
    if (const auto* p = std::get_if<Probe>(&fact)) return held(known.probes, p->probe).fact;
    if (const auto* m = std::get_if<Maker>(&fact)) return held(known.makers, m->product).fact;
    if (std::holds_alternative<ProgrammeRules>(fact) && known.rules()) return known.rules()->fact;
    if (const auto* l = std::get_if<Lot>(&fact)) {
        const auto id = store.lot(l->product, l->lot);
        const std::string expiry = id ? known.expiry(store.lot_definitions(*id)) : std::string();
        if (!expiry.empty()) return Lot{l->product, l->lot, expiry};
    }
    return std::nullopt;
}

std::optional<Redefined> redefined(const ledger::Known& known, const ledger::Store& store, const Fact& fact) {
    const auto* undo = std::get_if<Void>(&fact);
    if (!undo) {
        auto before = held(known, store, fact);
        return before ? std::optional<Redefined>({std::move(*before), fact}) : std::nullopt;
    }
    const auto gone = known.is_known(undo->voids) ? store.entry(undo->voids, false) : std::nullopt;
    auto before = gone ? held(known, store, gone->fact) : std::nullopt;
    if (!before || (std::holds_alternative<Site>(*before) && known.sites.size() == 1)) return std::nullopt;
    ledger::Known then = known;
    Entry entry;
    entry.fact = *undo;
    entry.number = known.upto + 1;
    then.add(entry);
    auto after = held(then, store, gone->fact);
    if (!after && std::holds_alternative<ProgrammeRules>(*before)) after = ProgrammeRules();
    const auto text = [](const Fact& of) {
        Entry whole;
        whole.fact = of;
        return entries::entry_json(whole).dump();
    };
    if (!after || text(*after) == text(*before)) return std::nullopt;
    return Redefined{std::move(*before), std::move(*after)};
}

bool is_redefined(const std::string& kind) { return droppable().contains(kind); }

std::vector<std::string> take_without(Json& fields) {
    std::vector<std::string> out;
    const auto it = fields.find("without");
    if (it == fields.end()) return out;
    if (!it->is_array()) throw Error(Code::bad_value, "without: must be a list of names");
    for (const auto& one : *it) {
        if (!one.is_string()) throw Error(Code::bad_value, "without: must be a list of names");
        std::string name = one.get<std::string>();
        const auto first = name.substr(0, name.find(' '));  // an event keeps its hyphens
        std::string changed = first;
        std::replace(changed.begin(), changed.end(), '-', '_');
        out.push_back(changed + name.substr(first.size()));
    }
    fields.erase(it);
    return out;
}

void keep_known(const ledger::Known& known, Json& fields, std::vector<Field>& kept) {
    const std::string kind = stated(fields, "kind");
    Json copy = fields;
    std::vector<std::string> without = take_without(copy);
    must_be_name(kind, stated(fields, "name"));
    for (const auto& name : without)
        if (!can_be_dropped(kind, name))
            throw Error(Code::bad_value, "without: " + text::quoted(name) + ": " + names_of(kind));
    const Held before = held(known, kind, fields);
    if (!before.fact) {
        if (!without.empty())
            throw Error(Code::not_defined,
                        "without: " + text::quoted(without.front()) + ": nothing is known that could be dropped");
        fields = std::move(copy);
        return;
    }
    Entry entry;
    entry.fact = *before.fact;
    Json old = Json::parse(entries::entry_json(entry).dump());
    for (const char* name : {"kind", "by", "at", "note", "entry", "recorded"}) old.erase(name);

    for (const auto& name : without) drop(old, name, before.entry);
    old.erase("allowances");
    for (const char* name : {"beyond_use", "gtin"})
        if (old.contains(name) && old[name].empty()) old.erase(name);

    if (copy.contains("freeze_limit") && old.contains("freeze_limit"))
        whole_limit(copy["freeze_limit"], old["freeze_limit"], "freeze_limit");
    for (const auto& [name, value] : old.items()) {
        const bool parts = (name == "range" || name == "beyond_use") && copy.contains(name) && copy[name].is_object();
        if (parts) {
            for (const auto& [part, of] : value.items()) {
                if (!copy[name].contains(part)) {
                    copy[name][part] = of;
                    kept.push_back(name == "range" ? kept_words(part) : words::kept_period(part));
                } else if (name == "range") {
                    whole_limit(copy[name][part], of, part);
                }
            }
        } else if (name == "gtin" && copy.contains(name) && copy[name].is_array()) {
            Json all = value;
            for (const auto& one : copy[name])
                if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
            copy[name] = std::move(all);
        } else if (!copy.contains(name)) {
            copy[name] = value;
            if (name != "product" && name != "place" && name != "probe")
                kept.push_back(kept_words(name));
        }
    }
    fields = std::move(copy);
}

void keep_allowances(const ledger::Known& known, Product& product, const std::vector<std::string>& without,
                     std::vector<Field>& kept, std::vector<Remark>& filled) {
    std::vector<Allowance> old;
    const Product* before = known.product(product.product);
    const auto dropped = [&](const std::string& name) {
        return std::find(without.begin(), without.end(), name) != without.end();
    };
    if (before && before->allowances && !dropped("allowances"))
        for (std::size_t i = 0; i < before->allowances->size(); ++i)
            if (!dropped("allowance " + std::to_string(i + 1))) old.push_back((*before->allowances)[i]);

    std::vector<Allowance> mine = product.allowances.value_or(std::vector<Allowance>());
    std::vector<bool> named(old.size(), false);
    std::vector<Allowance> fresh;
    for (Allowance& band : mine) {
        const auto same = std::find_if(old.begin(), old.end(), [&](const Allowance& a) {
            return same_limit(a.low, band.low) && same_limit(a.high, band.high);
        });
        if (same == old.end()) {
            fresh.push_back(band);
            continue;
        }
        named[static_cast<std::size_t>(same - old.begin())] = true;
        same->seconds = band.seconds;
        same->source = band.source;
    }
    for (std::size_t i = 0; i < old.size(); ++i)
        if (!named[i])
            kept.push_back(words::kept_allowance(whole_duration_words(old[i].seconds),
                                                 both_scales(Range{old[i].low, old[i].high})));
    for (std::size_t i = 0; i < fresh.size(); ++i) {
        std::vector<Allowance> others = old;
        for (std::size_t k = 0; k < fresh.size(); ++k)
            if (k != i) others.push_back(fresh[k]);
        meet_limits(fresh[i], product.range, others, filled);
    }
    old.insert(old.end(), fresh.begin(), fresh.end());
    if (!old.empty())
        product.allowances = std::move(old);
    else
        product.allowances.reset();
}

}  // namespace coldtally::answers
