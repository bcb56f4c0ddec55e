#include "drafts/limit_doubts.hpp"

#include <algorithm>

#include "drafts/read_back.hpp"
#include "exposure/limits.hpp"

namespace coldtally::answers {

namespace {

/// A published range in both scales, in degrees.
struct Published {
    const char* name;
    std::int64_t low_C, high_C, low_F, high_F;
};
// Sources: refrigerator USP <1079>, storage statement, and NISTIR 7656; freezer Immunize.org, Ask the Experts,
// Varicella; ultra-cold CDC toolkit, addendum (from memory); the others USP <1079> and <659>, and an insert. Each is a
// case in tests/published/storage-ranges.txt.
constexpr Published refrigerator{"a refrigerator", 2, 8, 36, 46}, freezer{"a freezer", -50, -15, -58, 5},
    ultra_cold{"an ultra-cold freezer", -90, -60, -130, -76};
constexpr Published others[] = {{"a freezer by USP", -25, -10, -13, 14},
                                {"controlled room temperature", 20, 25, 68, 77},
                                {"its excursions", 15, 30, 59, 86},
                                {"refrigerator or freezer", -50, 8, -58, 46}};

std::string published_words(const Published& p) {
    return std::to_string(p.low_C) + " to " + std::to_string(p.high_C) + " °C (" + std::to_string(p.low_F) + " to " +
           std::to_string(p.high_F) + " °F)";
}

/// Degrees of a limit in a scale that it states.
std::optional<Rational> stated(const Limit& l, Scale s) {
    if (const auto& t = s == Scale::C ? l.C : l.F) return Rational(t->thousandths(), 1000);
    return std::nullopt;
}

/// 1 °C, or 2 °F, since 46 °F is no exact 8 °C: a choice of ours for what is far from a published limit.
Rational far(Scale s) { return Rational(s == Scale::C ? 1 : 2); }

bool is_far(const Limit& l, std::int64_t C, std::int64_t F) {
    for (const Scale s : {Scale::C, Scale::F})
        if (const auto degrees = stated(l, s)) {
            const Rational d = *degrees - Rational(s == Scale::C ? C : F);
            if (d > far(s) || -d > far(s)) return true;
        }
    return false;
}

/// 5 °C: a choice of ours for a product's range that no published one is like; near ones are told apart by
/// unusual_limits.
bool is_like(const Range& r, const Published& p) {
    const auto near = [](const Limit& l, std::int64_t C) {
        const Rational d = l.in(Scale::C) - Rational(C);
        return d <= Rational(5) && -d <= Rational(5);
    };
    return near(*r.low, p.low_C) && near(*r.high, p.high_C);
}

bool is_like_none(const Range& r) {
    if (!r.low || !r.high) return false;
    bool like = false;
    for (const Published& p : {refrigerator, freezer, ultra_cold}) like = like || is_like(r, p);
    for (const Published& p : others) like = like || is_like(r, p);
    return !like;
}

// Choices of ours for what may be a slip of the hand: nothing is to be used that was warmer than 60 °C, a band above
// room temperature is of days, and a product kept above freezing does not freeze far below 0 °C.
constexpr std::int64_t hottest_C = 60, room_C = 25, coldest_freezing_C = -5;
constexpr Duration longest_above_room{10 * 86400};

/// What of a band may be a slip.
void band(std::vector<std::string>& out, const Allowance& a, const std::string& name, const Product& p) {
    if (a.high.in(Scale::C) > Rational(hottest_C))
        out.push_back(name + " reaches to " + both_scales(a.high) + ", above " + std::to_string(hottest_C) + " °C");
    else if (a.high.in(Scale::C) > Rational(room_C) && a.seconds > longest_above_room)
        out.push_back(name + " permits " + whole_duration_words(a.seconds) + " up to " + both_scales(a.high) +
                      ", more than " + whole_duration_words(longest_above_room) + " above " + std::to_string(room_C) +
                      " °C");
    if (p.range.low && p.range.low->in(Scale::C) > Rational(0) && a.low.in(Scale::C) <= Rational(0) && !p.freeze_limit)
        out.push_back(name + " reaches down to " + both_scales(a.low) +
                      ", and no freeze limit is stated: doses that froze would count as within the allowance");
}

bool is_above(const Limit& l, std::int64_t C, std::int64_t F) {
    return (l.C && *stated(l, Scale::C) > Rational(C)) || (l.F && *stated(l, Scale::F) > Rational(F));
}

/// Are the two numbers of a limit one temperature? Published ranges, rounded to whole degrees, are within 1 °F.
void pair(std::vector<std::string>& out, const std::string& what, const Limit& l) {
    if (!l.C || !l.F) return;
    const Rational converted = *stated(l, Scale::C) * Rational(9, 5) + Rational(32);
    const Rational apart = *stated(l, Scale::F) - converted;
    if (apart <= Rational(1) && -apart <= Rational(1)) return;
    out.push_back(what + " is stated as " + l.C->text() + " °C and as " + l.F->text() +
                  " °F, which are not one temperature: " + l.C->text() + " °C = " + exact_words(converted) + " °F, " +
                  exact_words(apart.sign() < 0 ? -apart : apart) + " °F apart");
}

void sides(std::vector<std::string>& out, const Range& r) {
    if (r.low) pair(out, "the lower limit", *r.low);
    if (r.high) pair(out, "the upper limit", *r.high);
    if (!r.low) out.push_back("no lower limit is stated: nothing in it is ever too cold");
    if (!r.high) out.push_back("no upper limit is stated: nothing in it is ever too warm");
}

struct Doubter {
    std::vector<std::string> operator()(const Place& p) const {
        std::vector<std::string> out;
        sides(out, p.range);
        const auto stretched = [&](const char* what, const std::optional<Duration>& stated, Duration usual) {
            if (stated && *stated > usual)
                out.push_back(std::string(what) + " up to " + whole_duration_words(*stated) + " apart, the usual is " +
                              whole_duration_words(usual) + ": the time between them counts as known");
        };
        stretched("a line is drawn between readings", p.max_gap, Place::usual_max_gap);
        stretched("a line is drawn between plain checks", p.max_check_gap, Place::usual_max_check_gap);
        const auto& [low, high] = p.range;
        if (p.type == PlaceType::refrigerator) {
            const bool low_far = low && is_far(*low, refrigerator.low_C, refrigerator.low_F),
                       high_far = high && is_far(*high, refrigerator.high_C, refrigerator.high_F);
            if (low_far)
                out.push_back("its lower limit, " + both_scales(*low) + ", is far from that of a refrigerator, " +
                              published_words(refrigerator));
            if (high_far)
                out.push_back("its upper limit, " + both_scales(*high) + ", is far from that of a refrigerator, " +
                              published_words(refrigerator));
        }
        const auto frozen = [&, &high = high](const Published& range, const char* name) {
            if (high && is_above(*high, range.high_C, range.high_F))
                out.push_back("its upper limit, " + both_scales(*high) + ", is above that of " + name + ", " +
                              published_words(range));
        };
        if (p.type == PlaceType::freezer) frozen(freezer, "a freezer");
        if (p.type == PlaceType::ultra_cold_freezer) frozen(ultra_cold, "an ultra-cold freezer");
        return out;
    }
    std::vector<std::string> operator()(const Product& p) const {
        std::vector<std::string> out;
        sides(out, p.range);
        if (is_like_none(p.range))
            out.push_back("the range " + both_scales(p.range) + " is far from every published one, such as " +
                          published_words(refrigerator) + " or " + published_words(freezer));
        if (p.freeze_limit) pair(out, "the freeze limit", *p.freeze_limit);
        if (p.freeze_limit && p.range.low && p.range.low->in(Scale::C) > Rational(0) &&
            p.freeze_limit->in(Scale::C) < Rational(coldest_freezing_C))
            out.push_back("the freeze limit, " + both_scales(*p.freeze_limit) +
                          ", is far below freezing, 0 °C (32 °F): is its scale right?");
        const auto& allowances = p.allowances.value_or(std::vector<Allowance>());
        for (std::size_t i = 0; i < allowances.size(); ++i) {
            const std::string name = " of allowance " + std::to_string(i + 1);
            pair(out, "the lower limit" + name, allowances[i].low);
            pair(out, "the upper limit" + name, allowances[i].high);
            band(out, allowances[i], "allowance " + std::to_string(i + 1), p);
        }
        const exposure::LimitsOf limits(p);
        for (std::size_t i = 1; i < allowances.size(); ++i)
            for (std::size_t k = 0; k < i; ++k) {
                const auto inside = [&](const exposure::Limits& in) {
                    return in.bands[k].first <= in.bands[i].first && in.bands[i].second <= in.bands[k].second;
                };
                if (!inside(limits.C) || !inside(limits.F)) continue;
                out.push_back("allowance " + std::to_string(i + 1) +
                              " never counts: its band is inside that of allowance " + std::to_string(k + 1) +
                              ", which takes all of the time");
                break;
            }
        const auto reaches = [](const exposure::Limits& in) { return in.freeze && in.low && *in.freeze >= *in.low; };
        if (reaches(limits.C) || reaches(limits.F))
            out.push_back("the freeze limit, " + both_scales(*p.freeze_limit) +
                          ", reaches into the range: doses in range would count as frozen");
        return out;
    }
    template <class Other>
    std::vector<std::string> operator()(const Other&) const {
        return {};
    }
};

bool is_published(const Range& r, const Published& p) {
    return !is_far(*r.low, p.low_C, p.low_F) && !is_far(*r.high, p.high_C, p.high_F);
}

}  // namespace

std::vector<std::string> pair_doubts(const std::string& what, const Limit& limit) {
    std::vector<std::string> out;
    pair(out, what, limit);
    return out;
}

std::vector<std::string> correction_doubts(const Certificate& certificate, Scale scale) {
    // 1 °C, or 2 °F: twice the ±0.5 °C (±1 °F) within which a certified logger is expected to be (CDC toolkit, from
    // memory); a choice of ours.
    std::vector<std::string> out;
    for (const auto& row : certificate.correction.value_or(std::vector<Certificate::Row>())) {
        const Rational by(row.correction.thousandths(), 1000);
        if (by <= far(scale) && -by <= far(scale)) continue;
        const auto words = [&](std::int32_t thousandths) {
            return Temperature(scale, thousandths).text() + " °" + scale_letter(scale);
        };
        out.push_back("a reading of " + words(row.indicated) + " counts as " +
                      words(row.indicated + row.correction.thousandths()) + ", a correction of more than " +
                      (scale == Scale::C ? "1 °C" : "2 °F") +
                      ", which a certified thermometer is not expected to need");
    }
    return out;
}

std::vector<std::string> limit_doubts(const Fact& fact) { return std::visit(Doubter{}, fact); }

std::vector<std::string> unusual_limits(const Fact& fact) {
    const auto* product = std::get_if<Product>(&fact);
    const auto* place = std::get_if<Place>(&fact);
    const bool container = place && place->type == PlaceType::transport_container;
    if (!product && !container) return {};
    const Range& range = product ? product->range : place->range;
    if (!range.low || !range.high || (product && is_like_none(range))) return {};  // is a doubt
    for (const Published& p : {refrigerator, freezer, ultra_cold})
        if (is_published(range, p)) return {};
    for (const Published& p : others)
        if (is_published(range, p)) return {};
    return {"the range " + both_scales(range) + " is none of the published ones (" + published_words(refrigerator) +
            ", " + published_words(freezer) + " and others): read its document again"};
}

bool same_limit(const Limit& a, const Limit& b) {
    bool common = false;
    for (const Scale s : {Scale::C, Scale::F}) {
        const auto x = stated(a, s), y = stated(b, s);
        if (!x || !y) continue;
        common = true;
        if (*x != *y) return false;
    }
    return common || a.in(Scale::C) == b.in(Scale::C);
}

void meet_limits(Allowance& band, const Range& range, const std::vector<Allowance>& bands,
                 std::vector<std::string>& what) {
    const auto meet = [&](Limit& own, const std::optional<Limit>& other, const char* does) {
        if (!other || (own.C && own.F) || !(other->C && other->F) || !same_limit(own, *other)) return;
        own = *other;
        what.push_back(std::string("the allowance ") + does + " " + both_scales(own));
    };
    meet(band.low, range.high, "begins where the range ends, at");
    meet(band.high, range.low, "ends where the range begins, at");
    for (const auto& other : bands) {
        meet(band.low, other.high, "begins where another ends, at");
        meet(band.high, other.low, "ends where another begins, at");
    }
}

namespace {

/// Temperatures between two, both not in it, in degrees of a scale.
struct Gap {
    Rational low, high;
};

Rational converted(Scale from, const Rational& d) {
    return from == Scale::C ? d * Rational(9, 5) + Rational(32) : (d - Rational(32)) * Rational(5, 9);
}

/// One scale's gaps above the range, or below it: between what has been covered so far and the band next to it.
std::vector<Gap> gaps(Scale s, bool warm, const Product& p) {
    std::vector<Gap> out;
    const auto& limit = warm ? p.range.high : p.range.low;
    if (!limit || !p.allowances) return out;
    const auto side = [&](const Rational& degrees) { return warm ? degrees : -degrees; };  // both sides go upwards
    Rational covered = side(limit->in(s));
    std::vector<std::pair<Rational, Rational>> bands;
    for (const auto& a : *p.allowances)
        bands.emplace_back(side((warm ? a.low : a.high).in(s)), side((warm ? a.high : a.low).in(s)));
    std::sort(bands.begin(), bands.end());
    for (const auto& [begin, end] : bands) {
        if (end <= covered) continue;
        if (begin > covered) out.push_back(warm ? Gap{covered, begin} : Gap{side(begin), side(covered)});
        covered = end;
    }
    return out;
}

std::string degrees(const Rational& d, Scale s) { return exact_words(d) + " °" + scale_letter(s); }

std::string between(const Gap& gap, Scale s) {
    return "readings above " + degrees(gap.low, s) + " and below " + degrees(gap.high, s);
}

}  // namespace

std::vector<std::string> holes(const Product& p) {
    constexpr const char* what = " are out of range and in no allowance";
    std::vector<std::string> out;
    for (const bool warm : {true, false}) {
        auto in_F = gaps(Scale::F, warm, p);
        const auto alone = [&](const Gap& gap, Scale s) {
            const Scale other = s == Scale::C ? Scale::F : Scale::C;
            out.push_back(std::string("in °") + scale_letter(s) + " " + between(gap, s) + " (" +
                          exact_words(converted(s, gap.low)) + " and " + degrees(converted(s, gap.high), other) + ")" +
                          what);
        };
        for (const Gap& gap : gaps(Scale::C, warm, p)) {
            // the same hole in °F, where each limit is as that scale has it
            const auto same = std::find_if(in_F.begin(), in_F.end(), [&](const Gap& f) {
                return f.low < converted(Scale::C, gap.high) && converted(Scale::C, gap.low) < f.high;
            });
            if (same == in_F.end()) {
                alone(gap, Scale::C);
                continue;
            }
            out.push_back(between(gap, Scale::C) + ", and above " + degrees(same->low, Scale::F) + " and below " +
                          degrees(same->high, Scale::F) + "," + what);
            in_F.erase(same);
        }
        for (const Gap& gap : in_F) alone(gap, Scale::F);
    }
    return out;
}

}  // namespace coldtally::answers
