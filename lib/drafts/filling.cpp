#include "drafts/filling.hpp"

#include <algorithm>
#include <set>

#include "coldtally/error.hpp"
#include "question/said.hpp"
#include "stock/last_use.hpp"
#include "stock/lists.hpp"
#include "stock/lot_twins.hpp"
#include "stock/stock.hpp"
#include "words/drafts.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

using text::Json;

bool is_stated(const Json& fields, const char* field) { return fields.contains(field) && fields[field].is_string(); }
std::string stated(const Json& fields, const char* field) {
    return is_stated(fields, field) ? fields[field].get<std::string>() : std::string();
}

void check_token(const std::string& token, const std::string& field) {
    if (token.find(' ') != std::string::npos)
        throw Error(Code::bad_value, field +
                                         ": has a blank, as a name has: must be a token without blanks that the chart "
                                         "resolves, never a name: nothing can be removed from a ledger");
}

namespace {

std::string joined(const std::vector<std::string>& parts, const char* between) {
    std::string out;
    for (const auto& part : parts) out += (out.empty() ? "" : between) + part;
    return out;
}

std::string row_words(const World& w, const ListsAnswer::Row& row) {
    const auto& k = row.holding;
    return text::quoted(k.product) + " lot " + text::quoted(k.lot) + " in " + text::quoted(k.place) +
           (k.fund.empty() ? "" : ", fund " + text::quoted(k.fund)) +
           (k.mark.empty() ? "" : ", mark " + text::quoted(k.mark)) + " (" + std::to_string(row.doses.count()) +
           ", usable " + english().say(usable_words(row.last_use.until, w.known.zone())) +
           (row.list != List::keep ? ", DO NOT USE: " + std::string(list_name(row.list))
            : row.in_doubt.empty() ? ""
                                   : ", DO NOT USE: IN DOUBT") +
           ")";
}

/// By their last day, first first: the order in which they are to be used. Judged only here, where they are read.
std::string choices(World& w, const std::vector<Present>& among) {
    std::vector<ledger::Store::LotRow> lots;
    std::set<HoldingKey> keys;
    for (const auto& one : among)
        if (keys.insert(one.holding).second && std::ranges::none_of(lots, [&](const auto& lot) {
                return lot.lot == one.lot.lot;
            }))
            lots.push_back(one.lot);
    std::vector<Judged> rows = listed(w, lots);
    std::erase_if(rows, [&](const Judged& row) { return !keys.contains(row.holding); });
    std::ranges::stable_sort(rows, {}, [](const auto& row) { return row.last_use.until; });
    constexpr std::size_t most = 12;
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < rows.size() && i < most; ++i) parts.push_back(row_words(w, rows[i]));
    if (rows.size() > most) parts.push_back("and " + std::to_string(rows.size() - most) + " more");
    return joined(parts, "; ");
}

struct Part {
    const char* field;
    std::string HoldingKey::*of;
    const words::Says<1>& named;
    bool at_place;  // stands beside the place
};
constexpr Part parts[] = {{"place", &HoldingKey::place, words::place_named, true},
                          {"product", &HoldingKey::product, words::product_named, false},
                          {"lot", &HoldingKey::lot, words::lot_named, false},
                          {"fund", &HoldingKey::fund, words::fund_named, false},
                          {"mark", &HoldingKey::mark, words::mark_named, true}};

}  // namespace

void Filling::known_lot(const std::string& number) const {
    if (!w_.lots_of(number).empty()) return;
    std::vector<std::string> twins;
    for (const auto& lot : lot_twins(w_, number))
        twins.push_back(text::quoted(lot.number) + " of " + text::quoted(lot.product));
    throw Error(Code::not_defined, "lot: " + text::quoted(number) + ": no lot of this number is known" +
                                       (twins.empty() ? "; a delivery with its expiry defines it"
                                                      : "; is it " + joined(twins, " or ") + "?"));
}

Doses Filling::holding(Json& fields, Json& at_place) {
    if (is_stated(fields, "lot")) known_lot(stated(fields, "lot"));
    if (is_stated(at_place, "place")) w_.place(stated(at_place, "place"));
    std::vector<Present> match, same_lot;
    for (const auto& row : doses_present(w_)) {
        bool all = true;
        for (const Part& part : parts) {
            const Json& in = part.at_place ? at_place : fields;
            if (is_stated(in, part.field) && stated(in, part.field) != row.holding.*part.of) all = false;
        }
        if (all) match.push_back(row);
        if (stated(fields, "lot") == row.holding.lot) same_lot.push_back(row);
    }
    std::vector<std::string> asked;
    for (const Part& part : parts) {
        const Json& in = part.at_place ? at_place : fields;
        if (is_stated(in, part.field))
            asked.push_back(std::string(part.field) + " " + text::quoted(stated(in, part.field)));
    }
    const std::string said = asked.empty() ? "nothing is stated" : joined(asked, ", ");
    if (match.empty())
        throw Error(Code::not_there, "lot: " + said + ": no doses at " + w_.known.zone().local_text(w_.head.at) +
                                         (same_lot.empty() ? "; that lot has no doses anywhere then"
                                                           : "; there are " + choices(w_, same_lot)));
    if (match.size() > 1) {
        std::vector<std::string> differ;
        for (const Part& part : parts) {
            std::set<std::string> values;
            for (const auto& row : match) values.insert(row.holding.*part.of);
            if (values.size() > 1) differ.emplace_back(part.field);
        }
        throw Error(Code::ambiguous, "lot: " + said + ": " + std::to_string(match.size()) +
                                         " holdings match; state the " + joined(differ, " or ") + ": " +
                                         choices(w_, match));
    }
    const HoldingKey& key = match[0].holding;
    for (const Part& part : parts) {
        Json& in = part.at_place ? at_place : fields;
        if (is_stated(in, part.field)) continue;
        const std::string& value = key.*part.of;
        const bool label = part.of == &HoldingKey::fund || part.of == &HoldingKey::mark;
        in[part.field] = value;
        if (!label || !value.empty()) note(part.named(text::quoted(value)));
    }
    return match[0].doses;
}

void Filling::product_of_lot(Json& fields) {
    if (is_stated(fields, "product") || !is_stated(fields, "lot")) return;
    const std::string number = stated(fields, "lot");
    known_lot(number);
    std::vector<std::string> products;
    for (const auto& lot : w_.lots_of(number)) products.push_back(lot.product);
    if (products.size() > 1) {
        std::vector<std::string> names;
        for (const auto& p : products) names.push_back(text::quoted(p));
        throw Error(Code::ambiguous, "lot: " + text::quoted(number) + ": is a lot of " + joined(names, " and of ") +
                                         "; state the product");
    }
    fields["product"] = products[0];
    note(words::product_named(text::quoted(products[0])));
}

void Filling::receiving(Json& fields) {
    if (!is_stated(fields, "place")) {
        std::vector<std::string> units;
        for (const auto& [id, definitions] : w_.known.places)
            if (!definitions.empty() && definitions.back().fact.type != PlaceType::room &&
                definitions.back().fact.type != PlaceType::transport_container)
                units.push_back(id);
        if (units.size() != 1) {
            for (auto& id : units) id = text::quoted(id);
            throw Error(Code::ambiguous, "place: not stated; must be one of " + joined(units, ", "));
        }
        fields["place"] = units[0];
        note(words::place_named(text::quoted(units[0])));
    }
    if (!is_stated(fields, "fund")) {
        std::set<std::string> funds;
        for (const auto& lot : w_.lots())
            for (const auto& h : w_.store.holdings(lot.lot)) funds.insert(h.fund);
        funds.erase("");
        if (!funds.empty()) {
            std::vector<Field> names;
            for (const auto& f : funds) names.emplace_back(text::quoted(f));
            throw Refusal(Code::ambiguous,
                          words::fund_not_stated(words::listed(names), words::empty_parameter("fund")));
        }
    }
}

void Filling::scale_of(Json& fields) {
    if (is_stated(fields, "scale") || !is_stated(fields, "place")) return;
    const std::string place = stated(fields, "place");
    w_.place(place);
    const auto set = [&](Scale scale, const words::Says<1>& why) {
        const std::string letter(1, scale_letter(scale));
        fields["scale"] = letter;
        note(why(letter));
    };
    if (is_stated(fields, "probe"))
        if (const auto* probe = w_.known.probe(stated(fields, "probe")))
            return set(probe->scale, words::scale_of_probe);
    std::optional<Scale> last;
    for (const auto& check : w_.store.checks(
             place,
             w_.store.check_before(place, w_.at, [&](EntryNumber n) { return w_.known.is_known(n); }).value_or(w_.at)))
        if (w_.known.is_known(check.entry) && (!last || check.at <= w_.at)) last = check.scale;
    if (last) return set(*last, words::scale_of_check);
    for (const auto& a : trace::assignments(w_.known))
        if (a.place == place && a.from <= w_.at && a.until > w_.at)
            if (const auto* probe = w_.known.probe(a.probe)) return set(probe->scale, words::scale_of_probe_in_it);
    throw Error(Code::ambiguous, "scale: not stated, and nothing says in which scale " + text::quoted(place) +
                                     " is read: must be C or F");
}

}  // namespace coldtally::answers
