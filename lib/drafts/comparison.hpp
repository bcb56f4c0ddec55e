// Comparison: two states of a ledger, part by part, and what is found in each.
#pragma once

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "coldtally/stock.hpp"

#include "drafts/loosening.hpp"

namespace coldtally::answers {

/// What every part is compared in, and what has been found so far: the parts are compared in the order below.
struct Comparison {
    using Row = ListsAnswer::Row;

    Comparison(World& world, const Touched& what, const Looked& was_then, const Looked& is_then);

    World& w;
    const Touched& touched;
    const Looked &before, &after;
    std::map<HoldingKey, const Row*> was, is;
    std::set<HoldingKey> told, told_longer;  ///< lots of which it was said
    std::set<EntryNumber> left_doubt;  ///< gives that leave the time in doubt of an incident: it was said
    std::vector<Remark> tighter, further, worse_left;  ///< holdings and doses that left: worse off by it
    std::vector<Field> worse_gives;
    Loosening out;

    void ask(const Remark& what);  ///< LOOSENS
    void say(const Remark& what);  ///< KNOWN NOW
    void say_between(const Remark& what);  ///< NOT MEASURED
    bool only_tightens() const {
        return !(tighter.empty() && further.empty() && worse_left.empty()) && out.asks.empty();
    }
};

void compare_doubts(Comparison& c);      ///< gives and departures in the time in doubt of an incident
void compare_holdings(Comparison& c);    ///< each that has doses before and after
void compare_lots(Comparison& c);        ///< doses that an entry puts elsewhere
void compare_gives(Comparison& c);
void compare_left(Comparison& c);        ///< doses that left the site
void compare_excursions(Comparison& c);
void compare_devices(Comparison& c);
void compare_lifted(Comparison& c);      ///< holds that guidance lifts which was posted before them
void compare_releases(Comparison& c);    ///< of incidents that were closed
void compare_programme(Comparison& c);   ///< what it asks of open incidents
/// What guidance cleared already of what is known only now, though no list shows it.
std::vector<Remark> learnt(const Comparison& c);

/// Why doses must not be used, and incidents in whose time in doubt they stood.
struct Against {
    std::vector<Reason> reasons;
    std::vector<std::string> in_doubt;
    bool empty() const { return reasons.empty() && in_doubt.empty(); }
};
/// What is in `before` and not in `after`.
template <class T>
std::vector<T> gone(const std::vector<T>& before, const std::vector<T>& after) {
    std::vector<T> out;
    for (const T& one : before)
        if (std::ranges::find(after, one) == after.end()) out.push_back(one);
    return out;
}
Against lost(const Comparison::Row& before, const Comparison::Row& after);
/// Nothing but that the temperature was not known?
bool only_unknown(const std::vector<Reason>& reasons);
bool only_unknown(const Against& against);
/// Does more time lie between plain checks than did? Nothing is known of that.
bool more_between_checks(const Exposure& before, const Exposure& after);
/// "warm, in the time in doubt of incident 2026-1"
Field against_words(const Against& against);

/// A side of an exposure.
struct SideOf {
    Remark name;
    SideExposure Exposure::*side;
};
const std::vector<SideOf>& sides_of_exposure();
/// A time of exposure that has become less, or may have been less at most, and a height out of range that has; none
/// where none has. `product`: of the doses. `seen`: any of it had been read, beyond what a tolerance lets be.
std::optional<Remark> less(const Product* product, const Exposure& before, const Exposure& after, bool& seen);
/// "highest 8.6 °C (47.5 °F) -> 28.6 °C (83.5 °F)", out of the product's range; none where it is no further.
std::optional<Remark> further(const Product* product, const Exposure& before, const Exposure& after);

HoldingKey lot_of(const HoldingKey& holding);
/// Of gives, which may be hundreds: a warning that long is not read. Their number is said before.
Field first_of(const std::vector<Field>& gives);
/// "a; b"
Remark which(const std::vector<Remark>& all);

}  // namespace coldtally::answers
