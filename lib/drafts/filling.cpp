#include "drafts/filling.hpp"

#include <algorithm>
#include <set>

#include "coldtally/error.hpp"
#include "question/said.hpp"
#include "stock/last_use.hpp"
#include "stock/lists.hpp"
#include "stock/lot_twins.hpp"
#include "stock/opened_vials.hpp"
#include "stock/stock.hpp"
#include "stock/which.hpp"
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

/// Which parts tell them apart, of those that are not stated.
using Parts = std::vector<const Part*>;

/// "40 doses, usable through 2027-05-31"; "7 doses, opened, DO NOT USE (quarantine)".
Remark doses_words(World& w, const Judged& row, bool opened) {
    const Remark doses = words::doses(row.doses.count());
    const Remark what = opened ? words::doses_opened(doses) : doses;
    const bool may_be_used = !do_not_use(row.list, row.in_doubt, row.beside);
    return words::comma(what, may_be_used
                                  ? words::usable_is(usable_words(row.last_use.until, w.known.zone()))
                                  : said::list_cell(row.list, row.in_doubt, row.beside));
}

/// By their last day, first first: the order in which they are to be used. Judged only here, where they are read.
std::vector<Remark> choices(World& w, const std::vector<Present>& among, const Parts& differ, bool moved) {
    std::vector<ledger::Store::LotRow> lots;
    std::set<HoldingKey> keys;
    for (const auto& one : among)
        if (keys.insert(one.holding).second && std::ranges::none_of(lots, [&](const auto& lot) {
                return lot.lot == one.lot.lot;
            }))
            lots.push_back(one.lot);
    std::set<HoldingKey> opened;
    for (const auto& lot : lots) {
        const UseCollector use = use_of(w, lot);
        for (const auto& key : keys)
            if (key.product == lot.product && key.lot == lot.number && is_opened(use.limits(key))) opened.insert(key);
    }
    std::vector<Judged> rows = listed(w, lots);
    std::erase_if(rows, [&](const Judged& row) { return !keys.contains(row.holding); });
    std::ranges::stable_sort(rows, {}, [](const auto& row) { return row.last_use.until; });
    constexpr std::size_t most = 12;
    std::vector<Remark> out;
    for (std::size_t i = 0; i < rows.size() && i < most; ++i) {
        std::vector<Suggestion::Argument> stated;
        for (const Part* part : differ)
            stated.push_back(stated_as(moved && part->of == &HoldingKey::place ? "from" : part->field,
                                       rows[i].holding.*part->of));
        out.push_back(choice_of(std::move(stated), doses_words(w, rows[i], opened.contains(rows[i].holding))));
    }
    if (rows.size() > most) out.push_back(words::choices_more(rows.size() - most, words::task("stock")));
    return out;
}

/// `lot "K0123", place "main"`
Field stated_words(const Json& fields, const Json& at_place) {
    std::vector<Field> out;
    for (const Part& part : parts) {
        const Json& in = part.at_place ? at_place : fields;
        if (is_stated(in, part.field)) out.push_back(part.named(text::quoted(stated(in, part.field))));
    }
    return out.empty() ? Field(words::nothing_stated()) : words::listed(out);
}

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
    const bool moved = &fields != &at_place;
    const auto told_apart = [&](const std::vector<Present>& among) {
        Parts out;
        for (const Part& part : parts) {
            const Json& in = part.at_place ? at_place : fields;
            const auto is_other = [&](const Present& row) {
                return row.holding.*part.of != (is_stated(in, part.field) ? stated(in, part.field)
                                                                          : among.front().holding.*part.of);
            };
            if (std::ranges::any_of(among, is_other)) out.push_back(&part);
        }
        return out;
    };
    if (match.empty()) {
        const std::string then = w_.known.zone().local_text(w_.head.at);
        const Remark none = words::no_doses_then(stated_words(fields, at_place), then);
        if (same_lot.empty())
            throw Refusal(Code::not_there, words::semicolon(none, words::lot_nowhere_then()));
        throw WhichOne(Code::not_there, words::but_there_are(none), choices(w_, same_lot, told_apart(same_lot), moved));
    }
    if (match.size() > 1) {
        const Parts differ = told_apart(match);
        std::vector<Field> names;
        for (const Part* part : differ) names.emplace_back(part->field);
        throw WhichOne(words::holdings_match(stated_words(fields, at_place), words::holdings(match.size()),
                                             words::listed_with_or(names)),
                       choices(w_, match, differ, moved));
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
    const auto lots = w_.lots_of(number);
    if (lots.size() > 1) which_product(w_, lots);
    fields["product"] = lots[0].product;
    note(words::product_named(text::quoted(lots[0].product)));
}

void Filling::receiving(Json& fields) {
    if (!is_stated(fields, "place")) {
        std::vector<std::string> units;
        for (const auto& [id, definitions] : w_.known.places)
            if (!definitions.empty() && definitions.back().fact.type != PlaceType::room &&
                definitions.back().fact.type != PlaceType::transport_container)
                units.push_back(id);
        if (units.size() != 1) {
            std::vector<Remark> choices;
            for (const auto& id : units) choices.push_back(choice_of({stated_as("place", id)}, w_.place(id).name));
            if (choices.empty()) throw Error(Code::ambiguous, "place: not stated, and no unit is known");
            throw WhichOne(words::place_not_stated(), std::move(choices));
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
            std::vector<Remark> choices;
            for (const auto& f : funds) choices.push_back(words::choice(words::task({}, {stated_as("fund", f)})));
            choices.push_back(choice_of({stated_as("fund", "")}, words::the_empty_fund()));
            throw WhichOne(words::fund_not_stated(), std::move(choices));
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
