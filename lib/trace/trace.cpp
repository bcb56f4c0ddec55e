#include "trace/trace.hpp"

#include <algorithm>

namespace coldtally::trace {

void Span::read(std::vector<Point>& out) const {
    const Rows rows = source->rows(block);
    out.reserve(out.size() + (until - from));
    for (std::size_t i = from; i < until; ++i) {
        const Reading& r = (*rows)[i];
        out.push_back({r.at.seconds_since_1970(), corrected(certificate, r.thousandths), tolerance, scale});
    }
}

Trace::Trace(const ledger::Store& store, const ledger::Known& known, const std::string& place, std::int64_t from,
             std::int64_t asked_at, const std::vector<Assignment>& assignments, bool keep_readings)
    : known_(known), from_(from) {
    const Place* definition = known.place(place);
    const Place usual;
    const Place& p = definition ? *definition : usual;
    const auto max_gap = p.max_gap.value_or(Place::usual_max_gap).seconds();
    const auto max_check_gap = p.max_check_gap.value_or(Place::usual_max_check_gap).seconds();
    const Near near{p.near.value_or(Place::usual_near).seconds(), Bounds(p.range, Scale::C), Bounds(p.range, Scale::F)};
    const auto stale_after = known.stale_after().seconds();
    // what a reading that far before may say of the time after: it may be joined or near to it, and while it is the
    // place's last one, it decides whether later time is awaited
    const auto first = std::min(from - std::max(max_gap, near.seconds), asked_at - stale_after);
    std::map<std::string, std::shared_ptr<const ProbeReadings>> probes;
    for (const Assignment& a : assignments) {
        if (a.place != place || a.until < first) continue;
        auto& readings = probes[a.probe];
        if (!readings) readings = std::make_shared<const ProbeReadings>(store, known, a.probe, first, keep_readings);
        const Probe* probe = known.probe(a.probe);
        if (!probe)
            store.database().damaged("probe \"" + a.probe +
                                     "\" is in a place, and the entry that defines it is missing");
        add_spans(a, readings, probe->scale, max_gap);
    }
    add_checks(store, place, near.seconds);
    add_parts(max_check_gap, near, asked_at, stale_after);
}

void Trace::add_spans(const Assignment& a, std::shared_ptr<const ProbeReadings> readings, Scale scale,
                      std::int64_t max_gap) {
    const Calibration calibration(known_, a.probe);
    const std::size_t first_new = spans_.size();
    const auto& blocks = readings->blocks();
    const auto add = [&](std::size_t block, std::size_t from, std::size_t until, const ledger::BlockSummary& s) {
        Span span;
        span.source = readings;
        span.block = block;
        span.from = from;
        span.until = until;
        span.certificate = calibration.at(s.first_at);
        span.tolerance = tolerance(span.certificate);
        span.scale = scale;
        span.first_at = s.first_at;
        span.last_at = s.last_at;
        span.first = corrected(span.certificate, s.first);
        span.last = corrected(span.certificate, s.last);
        span.lowest = corrected(span.certificate, s.lowest);  // a correction keeps the order of temperatures
        span.highest = corrected(span.certificate, s.highest);
        spans_.push_back(std::move(span));
    };
    spans_.reserve(spans_.size() + blocks.size());
    auto i = static_cast<std::size_t>(
        std::partition_point(blocks.begin(), blocks.end(), [&](const auto& b) { return b.summary.last_at < a.from; }) -
        blocks.begin());
    for (; i < blocks.size() && blocks[i].summary.first_at < a.until; ++i) {
        const auto& s = blocks[i].summary;
        if (s.first_at >= a.from && s.last_at < a.until && s.longest_step <= max_gap &&
            calibration.constant(s.first_at, s.last_at)) {
            add(i, 0, static_cast<std::size_t>(s.readings), s);
            continue;
        }
        const Rows rows = readings->rows(i);
        const auto at = [&](std::size_t k) { return (*rows)[k].at.seconds_since_1970(); };
        const bool one_certificate = calibration.constant(s.first_at, s.last_at);  // usual, and quick to see
        for (std::size_t from = 0; from < rows->size();) {
            if (at(from) < a.from) {
                ++from;
                continue;
            }
            if (at(from) >= a.until) break;
            std::size_t until = from + 1;
            while (until < rows->size() && at(until) < a.until && at(until) - at(until - 1) <= max_gap &&
                   (one_certificate || calibration.constant(at(from), at(until))))
                ++until;
            add(i, from, until, ledger::summary_of(std::span(*rows).subspan(from, until - from)));
            from = until;
        }
    }
    for (std::size_t k = first_new; k + 1 < spans_.size(); ++k)
        spans_[k].joined = spans_[k + 1].first_at - spans_[k].last_at <= max_gap;
}

void Trace::add_checks(const ledger::Store& store, const std::string& place, std::int64_t near) {
    // the check before belongs to the first pair, and one a little earlier may be near
    const auto before = store.check_before(place, from_, [&](EntryNumber n) { return known_.is_known(n); });
    const auto first = std::min(before.value_or(from_), from_ - near);
    const Certificate* last = nullptr;
    std::int64_t runs_out = 0;  // of the last: a day's end is asked of the zone once a certificate
    store.for_each_check(place, first, [&](const ledger::CheckRow& row) {
        if (!known_.is_known(row.entry)) return;
        const Certificate* certificate = row.probe ? Calibration(known_, *row.probe).at(row.at) : nullptr;
        if (certificate && certificate != last) {
            last = certificate;
            runs_out = known_.zone().end_of_day(certificate->expires).seconds_since_1970();
        }
        if (row.probe && (!certificate || runs_out <= row.at)) unproven_.push_back({row.at, *row.probe, !certificate});
        CheckPoint c;
        c.point = {row.at, corrected(certificate, row.temperature), tolerance(certificate), row.scale};
        c.entry = row.entry;
        if (row.lowest) {
            c.lowest = corrected(certificate, *row.lowest);
            c.highest = corrected(certificate, *row.highest);
        }
        if (!checks_.empty() && checks_.back().point.at == row.at)
            checks_.pop_back();  // of two at one instant the later number holds
        checks_.push_back(c);
    });
}

namespace {

/// Of whole thousandths, those not out of range: a limit that lies between two is rounded inwards.
std::int64_t thousandths(const Limit& limit, Scale scale, bool up) {
    const Rational exact = limit.in(scale) * Rational(1000);
    return up ? exact.ceil() : exact.floor();
}

}  // namespace

Bounds::Bounds(const Range& range, Scale scale) {
    if (range.low) low = thousandths(*range.low, scale, true);
    if (range.high) high = thousandths(*range.high, scale, false);
}

std::vector<std::pair<std::int64_t, std::int64_t>> Trace::near_within(const Near& near, std::int64_t from,
                                                                      std::int64_t until) const {
    std::vector<std::pair<std::int64_t, std::int64_t>> out;
    const std::int64_t n = near.seconds;
    if (n == 0) return out;
    std::vector<std::int64_t> sights;
    const auto see = [&](const Point& p) {
        if (p.at > from - n && p.at < until + n && near.speaks(p.value, p.value, p.scale)) sights.push_back(p.at);
    };
    std::vector<Point> rows;
    for (std::size_t i = span_at(from - n); i < spans_.size() && spans_[i].first_at < until + n; ++i) {
        const Span& s = spans_[i];
        const Point first = s.first_point(), last = s.last_point();
        if ((s.scale == Scale::C ? near.C : near.F).exclude(s.lowest, s.highest)) continue;
        // of the readings on one side of [from, until) the nearest in range says all that the others do
        const Point& nearest = s.last_at <= from ? last : first;
        if (s.first_at == s.last_at || near.speaks(nearest.value, nearest.value, s.scale)) {
            see(nearest);
            continue;
        }
        rows.clear();
        s.read(rows);
        for (const Point& p : rows) see(p);
    }
    for (std::size_t k = check_at(from - n); k < checks_.size() && checks_[k].point.at < until + n; ++k)
        see(checks_[k].point);
    std::ranges::sort(sights);
    for (const std::int64_t t : sights) {
        const std::int64_t a = std::max(from, t - n), b = std::min(until, t + n);
        if (!out.empty() && a <= out.back().second)
            out.back().second = b;
        else
            out.emplace_back(a, b);
    }
    return out;
}

void Trace::add_parts(std::int64_t max_check_gap, const Near& near, std::int64_t asked_at, std::int64_t stale_after) {
    const std::int64_t last = this->last().value_or(-forever);
    const Class after_last = asked_at - last <= stale_after ? Class::awaiting : Class::unmonitored;

    // what the pairs of checks say of [from, until), which no logger covers; the rest is unmonitored
    const auto fill = [&](std::int64_t from, std::int64_t until) {
        const auto part = [&](std::int64_t end, Class kind, const CheckPoint* earlier = nullptr,
                              const CheckPoint* later = nullptr) {
            if (from >= end) return;
            parts_.push_back({from, end, kind, earlier, later});
            from = end;
        };
        const auto unknown = [&](std::int64_t end, Class kind) {
            if (from >= end) return;
            for (const auto& [a, b] : near_within(near, from, end)) {
                part(a, kind);
                part(b, Class::near);
            }
            part(end, kind);
        };
        // of the pairs (k - 1, k) of checks, from the first that ends after `from`
        for (std::size_t k = std::max(std::size_t{1}, check_at(from));
             k < checks_.size() && checks_[k - 1].point.at < until; ++k) {
            const CheckPoint &earlier = checks_[k - 1], &later = checks_[k];
            if (!later.lowest && later.point.at - earlier.point.at > max_check_gap) continue;
            unknown(earlier.point.at, Class::unmonitored);
            part(std::min(until, later.point.at), later.lowest ? Class::bounded : Class::checked, &earlier, &later);
        }
        unknown(std::min(until, last), Class::unmonitored);
        unknown(until, after_last);
    };

    std::int64_t t = -forever;
    for (std::size_t i = 0; i < spans_.size();) {
        std::size_t j = i;
        while (spans_[j].joined) ++j;
        if (spans_[i].first_at < spans_[j].last_at) {  // one reading alone covers no time
            fill(t, spans_[i].first_at);
            t = spans_[j].last_at;
        }
        i = j + 1;
    }
    fill(t, forever);
}

std::size_t Trace::span_at(std::int64_t t) const {
    return static_cast<std::size_t>(
        std::partition_point(spans_.begin(), spans_.end(), [&](const Span& s) { return s.last_at < t; }) -
        spans_.begin());
}

std::size_t Trace::part_at(std::int64_t t) const {
    return static_cast<std::size_t>(
        std::partition_point(parts_.begin(), parts_.end(), [&](const Part& p) { return p.until <= t; }) -
        parts_.begin());
}

std::size_t Trace::check_at(std::int64_t t) const {
    return static_cast<std::size_t>(
        std::partition_point(checks_.begin(), checks_.end(), [&](const CheckPoint& c) { return c.point.at < t; }) -
        checks_.begin());
}

std::optional<std::int64_t> Trace::last() const {
    std::optional<std::int64_t> out;
    if (!spans_.empty()) out = spans_.back().last_at;
    if (!checks_.empty()) out = std::max(out.value_or(-forever), checks_.back().point.at);
    return out;
}

bool Trace::line_begins(std::int64_t t) const {
    const auto i = span_at(t);
    if (i < spans_.size() && spans_[i].first_at <= t && (t < spans_[i].last_at || spans_[i].joined)) {
        // inside a span, or at its end with the next one joined; a reading must stand at t for a part to begin there,
        // which is so where t is the end of a part
        return true;
    }
    const auto k = part_at(t);
    return k < parts_.size() && parts_[k].kind == Class::checked && parts_[k].from == t;
}

}  // namespace coldtally::trace
