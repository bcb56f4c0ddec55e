#include "ledger/known.hpp"

#include <algorithm>

#include "text/json_text.hpp"

namespace coldtally::ledger {

namespace {

template <class T>
const T* last_of(const std::map<std::string, std::vector<Numbered<T>>>& all, const std::string& id) {
    const auto it = all.find(id);
    return it == all.end() || it->second.empty() ? nullptr : &it->second.back().fact;
}

template <class T>
void insert_by_time(std::vector<Dated<T>>& all, Dated<T> one) {
    const auto place = std::upper_bound(all.begin(), all.end(), one, [](const auto& a, const auto& b) {
        return std::pair(a.at, a.entry) < std::pair(b.at, b.entry);
    });
    all.insert(place, std::move(one));
}

template <class T>
void erase_entry(std::vector<T>& all, EntryNumber entry) {
    std::erase_if(all, [&](const T& x) { return x.entry == entry; });
}

}  // namespace

Known Known::load(const Store& store, EntryNumber upto) {
    Known k;
    store.for_each_knowledge(upto, [&](Entry e) {
        if (const auto* v = std::get_if<Void>(&e.fact)) k.voided.insert(v->voids);
        k.add(e);
    });
    if (k.sites.empty()) store.database().damaged("the entry that names the site is missing");
    k.upto = upto;
    k.set_zone();
    return k;
}

const Product* Known::product(const std::string& id) const { return last_of(products, id); }
const Place* Known::place(const std::string& id) const { return last_of(places, id); }
const Probe* Known::probe(const std::string& id) const { return last_of(probes, id); }
const Maker* Known::maker(const std::string& product) const { return last_of(makers, product); }

std::string Known::place_names() const {
    constexpr int most = 12;
    std::string out;
    int n = 0;
    for (const auto& [id, definitions] : places)
        if (!definitions.empty() && ++n <= most) out += (n > 1 ? ", " : "") + text::quoted(id);
    if (n > most) out += " and " + std::to_string(n - most) + " more";
    return n == 0 ? out : " (there " + std::string(n == 1 ? "is " : "are ") + out + ")";
}

std::string Known::expiry(const std::vector<std::pair<EntryNumber, std::string>>& definitions) const {
    std::string out;
    for (const auto& [entry, expiry] : definitions)
        if (is_known(entry)) out = expiry;
    return out;
}

void Known::set_zone() {
    if (!sites.empty() && (!zone_ || zone_->name() != site().zone)) zone_.emplace(site().zone);
}

void Known::add(const Entry& e) {
    upto = std::max(upto, e.number);
    const std::int64_t at = e.at ? e.at->seconds_since_1970() : 0;
    if (const auto* s = std::get_if<Site>(&e.fact)) {
        sites.push_back({e.number, *s});
        set_zone();
    } else if (const auto* p = std::get_if<Product>(&e.fact)) {
        products[p->product].push_back({e.number, *p});
    } else if (const auto* l = std::get_if<Place>(&e.fact)) {
        places[l->place].push_back({e.number, *l});
    } else if (const auto* b = std::get_if<Probe>(&e.fact)) {
        probes[b->probe].push_back({e.number, *b});
    } else if (const auto* c = std::get_if<Certificate>(&e.fact)) {
        insert_by_time(certificates[c->probe], {at, e.number, *c});
    } else if (const auto* a = std::get_if<Assign>(&e.fact)) {
        insert_by_time(assigns, {at, e.number, *a});
    } else if (const auto* h = std::get_if<Hold>(&e.fact)) {
        insert_by_time(holds, {at, e.number, *h});
    } else if (const auto* g = std::get_if<Guidance>(&e.fact)) {
        guidance.push_back({at, e.number, *g});
    } else if (const auto* r = std::get_if<ProgrammeRules>(&e.fact)) {
        programme_rules.push_back({e.number, *r});
    } else if (const auto* m = std::get_if<Maker>(&e.fact)) {
        makers[m->product].push_back({e.number, *m});
    } else if (const auto* sent = std::get_if<Report>(&e.fact)) {
        insert_by_time(reports, {at, e.number, *sent});
    } else if (const auto* t = std::get_if<Trip>(&e.fact)) {
        insert_by_time(trips, {at, e.number, *t});
    } else if (const auto* v = std::get_if<Void>(&e.fact)) {
        voided.insert(v->voids);
        const bool of_hold = std::ranges::any_of(holds, [&](const auto& one) { return one.entry == v->voids; });
        if (!of_hold) last_void_but_of_holds = e.number;
        remove(v->voids);
    }
}

void Known::remove(EntryNumber entry) {
    erase_entry(sites, entry);
    for (auto& [id, all] : products) erase_entry(all, entry);
    for (auto& [id, all] : places) erase_entry(all, entry);
    for (auto& [id, all] : probes) erase_entry(all, entry);
    for (auto& [id, all] : certificates) erase_entry(all, entry);
    erase_entry(assigns, entry);
    erase_entry(holds, entry);
    erase_entry(guidance, entry);
    erase_entry(programme_rules, entry);
    for (auto& [id, all] : makers) erase_entry(all, entry);
    erase_entry(reports, entry);
    erase_entry(trips, entry);
    set_zone();
}

std::vector<Duration> allowance_seconds(const Product& product) {
    std::vector<Duration> out;
    if (product.allowances)
        for (const auto& a : *product.allowances) out.push_back(a.seconds);
    return out;
}

}  // namespace coldtally::ledger
