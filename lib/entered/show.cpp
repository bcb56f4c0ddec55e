#include "entered/show.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "coldtally/error.hpp"
#include "coldtally/nearest.hpp"
#include "drafts/read_back.hpp"
#include "entered/entered.hpp"
#include "entered/rules_lines.hpp"
#include "text/json_text.hpp"
#include "upkeep/training.hpp"
#include "words/entered.hpp"
#include "words/entry.hpp"
#include "words/general.hpp"
#include "words/upkeep.hpp"

namespace coldtally {

std::string_view defined_name(Defined what) noexcept {
    constexpr std::string_view names[] = {"site",        "product", "lot",   "place", "probe",
                                          "certificate", "assign",  "maker", "rules", "person"};
    return names[static_cast<int>(what)];
}

namespace answers {

namespace {

using Lines = std::vector<ReadBack>;
using Taken = std::map<EntryNumber, EnteredAnswer::TakenBack>;

/// What an entry defines; `product` of a lot alone.
struct Key {
    Defined what = Defined::site;
    std::string name, product;
    auto operator<=>(const Key&) const = default;
};

struct KeyOf {
    std::optional<Key> operator()(const Site&) const { return Key{Defined::site, "site", {}}; }
    std::optional<Key> operator()(const Product& p) const { return Key{Defined::product, p.product, {}}; }
    std::optional<Key> operator()(const Lot& l) const { return Key{Defined::lot, l.lot, l.product}; }
    std::optional<Key> operator()(const Place& p) const { return Key{Defined::place, p.place, {}}; }
    std::optional<Key> operator()(const Probe& p) const { return Key{Defined::probe, p.probe, {}}; }
    std::optional<Key> operator()(const Certificate& c) const { return Key{Defined::certificate, c.probe, {}}; }
    std::optional<Key> operator()(const Assign& a) const { return Key{Defined::assign, a.probe, {}}; }
    std::optional<Key> operator()(const Maker& m) const { return Key{Defined::maker, m.product, {}}; }
    std::optional<Key> operator()(const ProgrammeRules&) const { return Key{Defined::rules, "rules", {}}; }
    std::optional<Key> operator()(const Training& t) const { return Key{Defined::person, t.person, {}}; }
    template <class Other>
    std::optional<Key> operator()(const Other&) const {
        return std::nullopt;
    }
};

/// Every definition that was posted, the ones taken back among them, in the order of posting.
std::map<Key, std::vector<Entry>> all_definitions(const World& w) {
    std::map<Key, std::vector<Entry>> out;
    const auto take = [&](Entry e) {
        if (auto key = std::visit(KeyOf{}, e.fact)) out[std::move(*key)].push_back(std::move(e));
    };
    w.store.for_each_knowledge(w.head.last_entry, take);
    w.store.for_each_duty(Training::kind, w.head.last_entry, take);
    for (const auto& lot : w.store.lots())
        for (const auto& [number, expiry] : w.store.lot_definitions(lot.lot))
            if (number <= w.head.last_entry) take(w.store.named_entry(number));
    return out;
}

Field training_words(const Training& t, const Entry& e, const Zone& zone) {
    Remark out = words::trained_on(zone.local(*e.at).date.text());
    if (t.due) out = words::comma(std::move(out), words::next_due(t.due->text()));
    if (t.reference) out = words::comma(std::move(out), words::proof_is(*t.reference));
    return out;
}

/// What one entry says.
Lines lines_of(const World& w, const Entry& e) {
    if (const auto* rules = std::get_if<ProgrammeRules>(&e.fact)) return rules_lines(*rules);
    if (const auto* t = std::get_if<Training>(&e.fact))
        return {{words::as_said(t->topic), training_words(*t, e, w.known.zone())}};
    const auto* certificate = std::get_if<Certificate>(&e.fact);
    const Probe* probe = certificate ? w.known.probe(certificate->probe) : nullptr;
    return read_back(e.fact, probe ? probe->scale : Scale::C);
}

std::vector<ShownAnswer::Change> changes(const Lines& before, const Lines& after, bool adds_alone) {
    const auto find = [](const Lines& all, const Remark& name) -> std::optional<Field> {
        const auto it = std::ranges::find(all, name, &ReadBack::name);
        return it == all.end() ? std::nullopt : std::optional(it->value);
    };
    std::vector<ShownAnswer::Change> out;
    for (const auto& line : after)
        if (auto old = find(before, line.name); old != line.value)
            out.push_back({line.name, std::move(old), line.value});
    for (const auto& line : before)
        if (!adds_alone && !find(after, line.name)) out.push_back({line.name, line.value, std::nullopt});
    return out;
}

/// Of people, topic by topic: when, and whether it still holds.
Lines training_lines(World& w, const std::string& person) {
    Lines out;
    const Zone& zone = w.known.zone();
    for (const auto& row : training(w).training) {
        if (row.person != person) continue;
        const Remark when = words::trained_on(zone.local(row.at).date.text());
        const Remark proof = row.reference ? words::comma(when, words::proof_is(*row.reference)) : when;
        if (row.due)
            out.push_back({words::as_said(row.topic),
                           words::trained_state(proof, row.lapsed ? words::training_lapsed() : words::training_good(),
                                                zone.local_text(*row.due))});
        else
            out.push_back({words::as_said(row.topic), words::comma(proof, words::training_not_said())});
    }
    return out;
}

ShownAnswer::Thing thing(World& w, const Key& key, const std::vector<Entry>& versions, const Taken& taken) {
    ShownAnswer::Thing out{key.what, key.name, {}, {}, {}};
    if (key.what == Defined::lot) out.product = key.product;
    const bool dated = key.what == Defined::certificate || key.what == Defined::assign;
    const bool is_person = key.what == Defined::person;
    const Entry* holds = nullptr;
    for (const Entry& e : versions) {
        const bool stands = !taken.contains(e.number) && (!(dated || is_person) || !e.at || *e.at <= w.head.at);
        if (stands && (!holds || !dated ||
                       std::pair(e.at.value_or(Instant()), e.number) >
                           std::pair(holds->at.value_or(Instant()), holds->number)))
            holds = &e;
    }
    Lines known;  // of a person: topics so far
    for (auto e = versions.begin(); e != versions.end(); ++e) {
        ShownAnswer::Version v{e->number, *e->recorded, e->at, e->by, e->note, {}, {}, holds == &*e};
        if (const auto it = taken.find(e->number); it != taken.end()) v.taken_back = it->second;
        const Lines now = lines_of(w, *e);
        Lines before;
        for (auto b = versions.begin(); b != e; ++b) {  // what held when it was posted
            const auto gone = taken.find(b->number);
            if (gone != taken.end() && gone->second.entry < e->number) continue;
            if (!is_person) before.clear();
            for (auto& line : lines_of(w, *b)) {
                std::erase_if(before, [&](const auto& old) { return old.name == line.name && is_person; });
                before.push_back(std::move(line));
            }
        }
        if (e != versions.begin() || is_person) v.changes = changes(before, now, is_person);
        out.history.push_back(std::move(v));
    }
    for (auto& line : is_person ? training_lines(w, key.name) : holds ? lines_of(w, *holds) : Lines{})
        out.lines.push_back({std::move(line.name), std::move(line.value)});
    return out;
}

std::optional<Defined> kind_asked(const std::optional<std::string>& name) {
    if (!name) return std::nullopt;
    std::string all;
    std::vector<std::string> candidates;
    for (int i = 0; i <= static_cast<int>(Defined::person); ++i) {
        const auto what = static_cast<Defined>(i);
        if (what == Defined::certificate || what == Defined::assign) continue;
        if (defined_name(what) == *name) return what;
        candidates.emplace_back(defined_name(what));
        all += (all.empty() ? "" : ", ") + candidates.back();
    }
    throw Error(Code::bad_value,
                "kind: " + text::quoted(*name) + ": must be one of " + all + did_you_mean(nearest(*name, candidates)));
}

bool is_of_kind(Defined what, const std::optional<Defined>& kind) {
    if (!kind || what == *kind) return true;
    return *kind == Defined::probe && (what == Defined::certificate || what == Defined::assign);
}

}  // namespace

ShownAnswer show(World& w, const ShowRequest& request) {
    ShownAnswer out;
    out.head = w.head;
    const auto kind = kind_asked(request.kind);
    const auto all = all_definitions(w);
    const bool one_alone = kind == Defined::site || kind == Defined::rules;  // it needs no name
    std::vector<std::string> names;
    Taken taken;
    if (request.name || one_alone) taken = taken_back(w);
    for (const auto& [key, versions] : all) {
        if (!is_of_kind(key.what, kind)) continue;
        if (!request.name && !one_alone) {
            if (key.what == Defined::certificate || key.what == Defined::assign) continue;
            if (out.known.empty() || out.known.back().what != key.what) out.known.push_back({key.what, {}});
            auto& ids = out.known.back().ids;
            if (ids.empty() || ids.back() != key.name) ids.push_back(key.name);
            continue;
        }
        names.push_back(key.name);
        const bool is_asked = !request.name || key.name == *request.name ||
                              (key.what == Defined::site && w.known.site().name == *request.name);
        if (is_asked) out.things.push_back(thing(w, key, versions, taken));
    }
    if (request.name && out.things.empty())
        throw Error(Code::not_known, "name: " + text::quoted(*request.name) + ": nothing of this name is known" +
                                         (request.kind ? " as a " + *request.kind : "") +
                                         did_you_mean(nearest(*request.name, names)));
    if (kind == Defined::rules && out.things.empty())
        throw Error(Code::not_known, "kind: \"rules\": no rules of a programme are known here");
    return out;
}

}  // namespace answers

}  // namespace coldtally
