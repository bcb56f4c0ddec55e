#include "trace.hpp"

#include <algorithm>
#include <map>
#include <stdexcept>

namespace second {

namespace {

const Probe& probe_named(const Records& records, const std::string& name) {
    for (const Probe& p : records.probes)
        if (p.probe == name) return p;
    throw std::invalid_argument("unknown probe " + name);
}

/// The last one to begin at or before the instant; of several that begin together the highest number.
const Certificate* certificate_at(const Records& records, const std::string& probe, Instant t) {
    const Certificate* held = nullptr;
    for (const Certificate& c : records.certificates) {
        if (c.probe != probe || c.at > t) continue;
        if (held == nullptr || c.at > held->at || (c.at == held->at && c.entry > held->entry)) held = &c;
    }
    return held;
}

Rational corrected(const Certificate* certificate, const Rational& indicated) {
    if (certificate == nullptr || certificate->correction.empty()) return indicated;
    const auto& table = certificate->correction;
    if (indicated <= table.front().first) return round_to_thousandth(indicated + table.front().second);
    if (indicated >= table.back().first) return round_to_thousandth(indicated + table.back().second);
    for (std::size_t i = 0; i + 1 < table.size(); ++i) {
        const auto& [x0, k0] = table[i];
        const auto& [x1, k1] = table[i + 1];
        if (indicated < x0 || indicated > x1) continue;
        const Rational share = (indicated - x0) / (x1 - x0);
        return round_to_thousandth(indicated + k0 + share * (k1 - k0));
    }
    throw std::invalid_argument("a correction table out of order");
}

Rational tolerance_of(const Certificate* certificate) {
    return certificate == nullptr ? Rational(0) : certificate->tolerance;
}

struct Spell {
    std::string probe, place;
    Instant from = 0;
    std::optional<Instant> until;  // none: still there
};

std::vector<Spell> spells_of(const Records& records) {
    std::vector<Assign> order = records.assigns;
    std::sort(order.begin(), order.end(), [](const Assign& a, const Assign& b) {
        return a.at != b.at ? a.at < b.at : a.entry < b.entry;
    });
    std::vector<Spell> spells;
    for (const Assign& a : order) {
        bool already_there = false;
        for (const Spell& s : spells)
            if (!s.until && s.probe == a.probe && a.place && s.place == *a.place) already_there = true;
        if (already_there) continue;
        for (Spell& s : spells) {
            if (s.until) continue;
            if (s.probe == a.probe) s.until = a.at;
            else if (a.place && s.place == *a.place) s.until = a.at;
        }
        if (a.place) spells.push_back({a.probe, *a.place, a.at, std::nullopt});
    }
    return spells;
}

}  // namespace

Trace trace_of(const Records& records, const Place& place, Instant A) {
    Trace trace;
    trace.max_gap_s = place.max_gap_s;
    trace.max_check_gap_s = place.max_check_gap_s;
    trace.near_s = place.near_s;
    trace.range = place.range;
    trace.stale_after_s = records.stale_after_s;
    trace.A = A;

    const std::vector<Spell> spells = spells_of(records);
    for (std::size_t i = 0; i < spells.size(); ++i) {
        const Spell& s = spells[i];
        if (s.place != place.place) continue;
        std::map<Instant, Rational> indicated;
        for (const Reading& r : records.readings) {
            if (r.probe != s.probe) continue;
            if (r.at < s.from || (s.until && r.at >= *s.until)) continue;
            const auto [known, is_new] = indicated.insert({r.at, r.temperature});
            if (!is_new && known->second != r.temperature)
                throw std::invalid_argument("two unequal readings of probe " + r.probe + " at one instant");
        }
        for (const auto& [at, temperature] : indicated) {
            const Certificate* c = certificate_at(records, s.probe, at);
            ReadingSample sample;
            sample.at = at;
            sample.scale = probe_named(records, s.probe).scale;
            sample.temperature = corrected(c, temperature);
            sample.tolerance = tolerance_of(c);
            sample.spell = i;
            trace.readings.push_back(sample);
        }
    }
    std::sort(trace.readings.begin(), trace.readings.end(),
              [](const ReadingSample& a, const ReadingSample& b) { return a.at < b.at; });

    std::map<Instant, Check> holding;  // of several at one instant the highest number
    for (const Check& c : records.checks) {
        if (c.place != place.place) continue;
        const auto found = holding.find(c.at);
        if (found == holding.end() || found->second.entry < c.entry) holding[c.at] = c;
    }
    for (const auto& [at, c] : holding) {
        const Certificate* certificate = nullptr;
        if (c.probe) {
            if (probe_named(records, *c.probe).scale != c.scale)
                throw std::invalid_argument("a check in another scale than that of probe " + *c.probe);
            certificate = certificate_at(records, *c.probe, at);
        }
        CheckSample sample;
        sample.at = at;
        sample.scale = c.scale;
        sample.temperature = corrected(certificate, c.temperature);
        sample.tolerance = tolerance_of(certificate);
        // Nothing says since when the extremes of a place's first check stand.
        if (c.min && c.max && !trace.checks.empty()) {
            sample.min = corrected(certificate, *c.min);
            sample.max = corrected(certificate, *c.max);
        }
        trace.checks.push_back(sample);
    }
    return trace;
}

namespace {

Line line_between(const Sample& a, const Sample& b) {
    Line line;
    line.t0 = Rational(a.at);
    line.t1 = Rational(b.at);
    if (a.scale == b.scale) {
        line.scale = a.scale;
        line.v0 = a.temperature;
        line.v1 = b.temperature;
        line.tolerance0 = a.tolerance;
        line.tolerance1 = b.tolerance;
    } else {
        line.scale = Scale::C;
        line.v0 = celsius(a.temperature, a.scale);
        line.v1 = celsius(b.temperature, b.scale);
        line.tolerance0 = celsius_degrees(a.tolerance, a.scale);
        line.tolerance1 = celsius_degrees(b.tolerance, b.scale);
    }
    return line;
}

bool in_range(const Range& range, const Sample& s) {
    if (range.low && s.temperature < limit_in(*range.low, s.scale)) return false;
    return !range.high || s.temperature <= limit_in(*range.high, s.scale);
}

/// The largest whole number that is not above x.
Instant floor_of(const Rational& x) {
    const boost::multiprecision::cpp_int n(boost::multiprecision::numerator(x));
    const boost::multiprecision::cpp_int d(boost::multiprecision::denominator(x));
    boost::multiprecision::cpp_int q = n / d;
    if (q * d > n) q = q - 1;
    return static_cast<Instant>(q);
}

/// The piece's class and what it is judged by: the first of the six that applies from its start on.
void classify(const Trace& trace, Piece& piece) {
    // No sample lies inside the piece, nor an end of what is near one, so a pair holds all of it if it holds its first
    // second.
    const Instant t = floor_of(piece.from);

    for (std::size_t i = 0; i + 1 < trace.readings.size(); ++i) {
        const ReadingSample& a = trace.readings[i];
        const ReadingSample& b = trace.readings[i + 1];
        if (!(a.at <= t && t < b.at)) continue;
        if (a.spell != b.spell || b.at - a.at > trace.max_gap_s) continue;
        piece.cls = Class::logged;
        piece.line = line_between(a, b);
        return;
    }
    for (std::size_t i = 0; i + 1 < trace.checks.size(); ++i) {
        const CheckSample& a = trace.checks[i];
        const CheckSample& b = trace.checks[i + 1];
        if (!(a.at <= t && t < b.at)) continue;
        if (b.min && b.max) {
            piece.cls = Class::bounded;
            piece.later = b;
            return;
        }
        if (b.at - a.at <= trace.max_check_gap_s) {
            piece.cls = Class::checked;
            piece.line = line_between(a, b);
            return;
        }
    }
    const auto near = [&](const Sample& s) {
        return t >= s.at - trace.near_s && t < s.at + trace.near_s && in_range(trace.range, s);
    };
    for (const ReadingSample& r : trace.readings)
        if (near(r)) piece.cls = Class::near;
    for (const CheckSample& c : trace.checks)
        if (near(c)) piece.cls = Class::near;
    if (piece.cls == Class::near) return;
    std::optional<Instant> last;
    for (const ReadingSample& r : trace.readings)
        if (!last || r.at > *last) last = r.at;
    for (const CheckSample& c : trace.checks)
        if (!last || c.at > *last) last = c.at;
    if (last && *last <= trace.A && *last <= t && trace.A - *last <= trace.stale_after_s) {
        piece.cls = Class::awaiting;
        return;
    }
    piece.cls = Class::unmonitored;
}

}  // namespace

std::vector<Piece> pieces(const Trace& trace, const Rational& from, const Rational& until) {
    std::vector<Rational> cuts;
    if (from < until) {
        cuts.push_back(from);
        cuts.push_back(until);
        const auto cut = [&](const Sample& s) {
            for (const Instant t : {s.at - trace.near_s, s.at, s.at + trace.near_s})
                if (Rational(t) > from && Rational(t) < until) cuts.push_back(Rational(t));
        };
        for (const ReadingSample& r : trace.readings) cut(r);
        for (const CheckSample& c : trace.checks) cut(c);
        std::sort(cuts.begin(), cuts.end());
    }
    std::vector<Piece> all;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
        if (cuts[i] == cuts[i + 1]) continue;
        Piece piece;
        piece.from = cuts[i];
        piece.until = cuts[i + 1];
        classify(trace, piece);
        all.push_back(piece);
    }
    return all;
}

Rational value_at(const Line& line, const Rational& t) {
    return line.v0 + (line.v1 - line.v0) * (t - line.t0) / (line.t1 - line.t0);
}

std::optional<Rational> crossing(const Line& line, const Rational& a, const Rational& b, const Rational& value) {
    if (line.v0 == line.v1) return std::nullopt;
    const Rational t = line.t0 + (value - line.v0) * (line.t1 - line.t0) / (line.v1 - line.v0);
    if (t > a && t < b) return t;
    return std::nullopt;
}

}  // namespace second
