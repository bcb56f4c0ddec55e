#include "drafts/limit_doubts.hpp"

#include <algorithm>

#include "drafts/read_back.hpp"
#include "exposure/limits.hpp"
#include "stock/may_be_more.hpp"
#include "words/drafts_limits.hpp"

namespace coldtally::answers {

namespace {

/// A published range in both scales, in degrees.
struct Published {
    std::int64_t low_C, high_C, low_F, high_F;
};
// Sources: refrigerator USP <1079>, storage statement, and NISTIR 7656; freezer Immunize.org, Ask the Experts,
// Varicella; ultra-cold CDC toolkit, addendum (from memory); the others USP <1079> and <659>, and an insert. Each is a
// case in tests/published/storage-ranges.txt.
constexpr Published refrigerator{2, 8, 36, 46}, freezer{-50, -15, -58, 5}, ultra_cold{-90, -60, -130, -76};
constexpr Published others[] = {{-25, -10, -13, 14},  // a freezer by USP
                                {20, 25, 68, 77},     // controlled room temperature
                                {15, 30, 59, 86},     // its excursions
                                {-50, 8, -58, 46}};   // refrigerator or freezer

Remark published_words(const Published& p) {
    return words::range_published(p.low_C, p.high_C, p.low_F, p.high_F);
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
void band(std::vector<Remark>& out, const Allowance& a, std::size_t number, const Product& p) {
    if (a.source.find_first_not_of(" \t") == std::string::npos) out.push_back(words::allowance_without_source(number));
    if (a.high.in(Scale::C) > Rational(hottest_C))
        out.push_back(words::allowance_hot(number, both_scales(a.high), hottest_C));
    else if (a.high.in(Scale::C) > Rational(room_C) && a.seconds > longest_above_room)
        out.push_back(words::allowance_long(number, whole_duration_words(a.seconds), both_scales(a.high),
                                            whole_duration_words(longest_above_room), room_C));
    if (p.range.low && p.range.low->in(Scale::C) > Rational(0) && a.low.in(Scale::C) <= Rational(0) && !p.freeze_limit)
        out.push_back(words::allowance_freezes(number, both_scales(a.low)));
}

bool is_above(const Limit& l, std::int64_t C, std::int64_t F) {
    return (l.C && *stated(l, Scale::C) > Rational(C)) || (l.F && *stated(l, Scale::F) > Rational(F));
}

/// Are the two numbers of a limit one temperature? Published ranges, rounded to whole degrees, are within 1 °F.
void pair(std::vector<Remark>& out, const Field& what, const Limit& l) {
    if (!l.C || !l.F) return;
    const Rational converted = *stated(l, Scale::C) * Rational(9, 5) + Rational(32);
    const Rational apart = *stated(l, Scale::F) - converted;
    if (apart <= Rational(1) && -apart <= Rational(1)) return;
    out.push_back(words::two_temperatures(what, l.C->text(), l.F->text(), exact_words(converted),
                                          exact_words(apart.sign() < 0 ? -apart : apart)));
}

void sides(std::vector<Remark>& out, const Range& r) {
    if (r.low) pair(out, words::lower_limit(), *r.low);
    if (r.high) pair(out, words::upper_limit(), *r.high);
    if (!r.low) out.push_back(words::no_lower_limit());
    if (!r.high) out.push_back(words::no_upper_limit());
}

struct Doubter {
    std::vector<Remark> operator()(const Place& p) const {
        std::vector<Remark> out;
        sides(out, p.range);
        const auto stretched = [&](const auto& says, const std::optional<Duration>& stated, Duration usual) {
            if (stated && *stated > usual)
                out.push_back(says(whole_duration_words(*stated), whole_duration_words(usual)));
        };
        stretched(words::line_between_readings, p.max_gap, Place::usual_max_gap);
        stretched(words::line_between_checks, p.max_check_gap, Place::usual_max_check_gap);
        const auto& [low, high] = p.range;
        if (p.type == PlaceType::refrigerator) {
            const bool low_far = low && is_far(*low, refrigerator.low_C, refrigerator.low_F),
                       high_far = high && is_far(*high, refrigerator.high_C, refrigerator.high_F);
            const Remark usual = published_words(refrigerator);
            if (low_far) out.push_back(words::lower_far_from_refrigerator(both_scales(*low), usual));
            if (high_far) out.push_back(words::upper_far_from_refrigerator(both_scales(*high), usual));
        }
        const auto frozen = [&, &high = high](const Published& range, const auto& says) {
            if (high && is_above(*high, range.high_C, range.high_F))
                out.push_back(says(both_scales(*high), published_words(range)));
        };
        if (p.type == PlaceType::freezer) frozen(freezer, words::upper_above_freezer);
        if (p.type == PlaceType::ultra_cold_freezer) frozen(ultra_cold, words::upper_above_ultra_cold);
        return out;
    }
    std::vector<Remark> operator()(const Product& p) const {
        std::vector<Remark> out;
        sides(out, p.range);
        if (is_like_none(p.range))
            out.push_back(
                words::range_far(both_scales(p.range), published_words(refrigerator), published_words(freezer)));
        if (p.freeze_limit) pair(out, words::freeze_limit(), *p.freeze_limit);
        if (p.freeze_limit && p.range.low && p.range.low->in(Scale::C) > Rational(0) &&
            p.freeze_limit->in(Scale::C) < Rational(coldest_freezing_C))
            out.push_back(words::freeze_limit_low(both_scales(*p.freeze_limit)));
        const auto& allowances = p.allowances.value_or(std::vector<Allowance>());
        for (std::size_t i = 0; i < allowances.size(); ++i) {
            pair(out, words::lower_limit_of_allowance(i + 1), allowances[i].low);
            pair(out, words::upper_limit_of_allowance(i + 1), allowances[i].high);
            band(out, allowances[i], i + 1, p);
        }
        const exposure::LimitsOf limits(p);
        for (std::size_t i = 1; i < allowances.size(); ++i)
            for (std::size_t k = 0; k < i; ++k) {
                const auto inside = [&](const exposure::Limits& in) {
                    return in.bands[k].first <= in.bands[i].first && in.bands[i].second <= in.bands[k].second;
                };
                if (!inside(limits.C) || !inside(limits.F)) continue;
                out.push_back(words::allowance_never_counts(i + 1, k + 1));
                break;
            }
        const auto reaches = [](const exposure::Limits& in) { return in.freeze && in.low && *in.freeze >= *in.low; };
        if (reaches(limits.C) || reaches(limits.F))
            out.push_back(words::freeze_limit_in_range(both_scales(*p.freeze_limit)));
        return out;
    }
    template <class Other>
    std::vector<Remark> operator()(const Other&) const {
        return {};
    }
};

/// Beyond a published limit by more than 0.5 °C, or 1 °F, since 35 °F stands for 2 °C in print, too; and not far from
/// it, which is a doubt.
bool is_beyond(const Limit& l, std::int64_t C, std::int64_t F, bool above) {
    if (is_far(l, C, F)) return false;
    for (const Scale s : {Scale::C, Scale::F})
        if (const auto degrees = stated(l, s)) {
            const Rational beyond = *degrees - Rational(s == Scale::C ? C : F);
            if ((above ? beyond : -beyond) > far(s) * Rational(1, 2)) return true;
        }
    return false;
}

/// A refrigerator's range, by which its excursions are found and time near a reading counts as known.
bool reaches_beyond(const Place& p) {
    return p.type == PlaceType::refrigerator &&
           ((p.range.low && is_beyond(*p.range.low, refrigerator.low_C, refrigerator.low_F, false)) ||
            (p.range.high && is_beyond(*p.range.high, refrigerator.high_C, refrigerator.high_F, true)));
}

bool is_published(const Range& r, const Published& p) {
    return !is_far(*r.low, p.low_C, p.low_F) && !is_far(*r.high, p.high_C, p.high_F);
}

}  // namespace

std::vector<Remark> pair_doubts(const Field& what, const Limit& limit) {
    std::vector<Remark> out;
    pair(out, what, limit);
    return out;
}

std::vector<Remark> correction_doubts(const Certificate& certificate, Scale scale) {
    // 1 °C, or 2 °F: twice the ±0.5 °C (±1 °F) within which a certified logger is expected to be (CDC toolkit, from
    // memory); a choice of ours.
    std::vector<Remark> out;
    for (const auto& row : certificate.correction.value_or(std::vector<Certificate::Row>())) {
        const Rational by(row.correction.thousandths(), 1000);
        if (by <= far(scale) && -by <= far(scale)) continue;
        const auto degrees = [&](std::int32_t thousandths) {
            return Temperature(scale, thousandths).text() + " °" + scale_letter(scale);
        };
        out.push_back(words::correction_large(degrees(row.indicated),
                                              degrees(row.indicated + row.correction.thousandths()),
                                              scale == Scale::C ? "1 °C" : "2 °F"));
    }
    return out;
}

std::vector<Remark> time_doubts(const Fact& fact) {
    // choices of ours: an evening without a reading, a long weekend, three months, which no leaflet of a vaccine that
    // we know of permits out of range
    constexpr Duration longest_stale{3 * 86400}, longest_allowance{90 * 86400};
    std::vector<Remark> out;
    const auto longer = [&](const words::Says<2>& says, const std::optional<Duration>& stated, Duration most) {
        if (stated && *stated > most) out.push_back(says(whole_duration_words(*stated), whole_duration_words(most)));
    };
    if (const auto* s = std::get_if<Site>(&fact)) {
        longer(words::unknown_may_last, s->unmonitored_limit, much_unknown);
        longer(words::data_may_be_late, s->stale_after, longest_stale);
    }
    if (const auto* p = std::get_if<Place>(&fact)) longer(words::reading_speaks_far, p->near, Place::usual_near);
    if (const auto* p = std::get_if<Product>(&fact); p && p->allowances)
        for (std::size_t i = 0; i < p->allowances->size(); ++i)
            if (const Allowance& a = (*p->allowances)[i]; a.seconds > longest_allowance)
                out.push_back(words::allowance_of_months(i + 1, whole_duration_words(a.seconds),
                                                         both_scales(Range{a.low, a.high}),
                                                         whole_duration_words(longest_allowance)));
    return out;
}

std::vector<Remark> limit_doubts(const Fact& fact) { return std::visit(Doubter{}, fact); }

std::vector<Remark> unusual_limits(const Fact& fact) {
    const auto* product = std::get_if<Product>(&fact);
    const auto* place = std::get_if<Place>(&fact);
    const bool container = place && place->type == PlaceType::transport_container;
    if (place && reaches_beyond(*place))
        return {words::place_unpublished(both_scales(place->range), published_words(refrigerator))};
    if (!product && !container) return {};
    const Range& range = product ? product->range : place->range;
    if (!range.low || !range.high || (product && is_like_none(range))) return {};  // is a doubt
    for (const Published& p : {refrigerator, freezer, ultra_cold})
        if (is_published(range, p)) return {};
    for (const Published& p : others)
        if (is_published(range, p)) return {};
    return {words::range_unpublished(both_scales(range), published_words(refrigerator), published_words(freezer))};
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
                 std::vector<Remark>& what) {
    const auto meet = [&](Limit& own, const std::optional<Limit>& other, const auto& says) {
        if (!other || (own.C && own.F) || !(other->C && other->F) || !same_limit(own, *other)) return;
        own = *other;
        what.push_back(says(both_scales(own)));
    };
    meet(band.low, range.high, words::begins_at_range);
    meet(band.high, range.low, words::ends_at_range);
    for (const auto& other : bands) {
        meet(band.low, other.high, words::begins_at_another);
        meet(band.high, other.low, words::ends_at_another);
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

}  // namespace

std::vector<Remark> holes(const Product& p) {
    std::vector<Remark> out;
    for (const bool warm : {true, false}) {
        auto in_F = gaps(Scale::F, warm, p);
        const auto alone = [&](const Gap& gap, Scale s) {
            const Scale other = s == Scale::C ? Scale::F : Scale::C;
            out.push_back(words::hole_in_one_scale(std::string("°") + scale_letter(s), degrees(gap.low, s),
                                                   degrees(gap.high, s), exact_words(converted(s, gap.low)),
                                                   degrees(converted(s, gap.high), other)));
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
            out.push_back(words::hole(degrees(gap.low, Scale::C), degrees(gap.high, Scale::C),
                                      degrees(same->low, Scale::F), degrees(same->high, Scale::F)));
            in_F.erase(same);
        }
        for (const Gap& gap : in_F) alone(gap, Scale::F);
    }
    return out;
}

}  // namespace coldtally::answers
