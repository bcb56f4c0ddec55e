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

Trace::Trace(const ledger::Store& store, const ledger::Known& known, const std::string& place, std::int64_t from, std::int64_t asked_at,
             const std::vector<Assignment>& assignments, bool keep_readings)
    : known_(known), from_(from) {
    const Place* definition = known.place(place);
    const auto max_gap = definition && definition->max_gap ? definition->max_gap->seconds() : 3600;
    const auto max_check_gap = definition && definition->max_check_gap ? definition->max_check_gap->seconds() : 259200;
    std::map<std::string, std::shared_ptr<const ProbeReadings>> probes;
    for (const Assignment& a : assignments) {
        if (a.place != place || a.until + max_gap < from) continue;
        auto& readings = probes[a.probe];
        // a reading that far before may be joined to the first one after
        if (!readings) readings = std::make_shared<const ProbeReadings>(store, known, a.probe, from - max_gap, keep_readings);
        add_spans(a, readings, known.probe(a.probe)->scale, max_gap);
    }
    add_checks(store, place);
    add_parts(max_check_gap, asked_at, known.stale_after().seconds());
}

void Trace::add_spans(const Assignment& a, std::shared_ptr<const ProbeReadings> readings, Scale scale, std::int64_t max_gap) {
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
    auto i = static_cast<std::size_t>(std::partition_point(blocks.begin(), blocks.end(), [&](const auto& b) { return b.summary.last_at < a.from; }) - blocks.begin());
    for (; i < blocks.size() && blocks[i].summary.first_at < a.until; ++i) {
        const auto& s = blocks[i].summary;
        if (s.first_at >= a.from && s.last_at < a.until && s.longest_step <= max_gap && calibration.constant(s.first_at, s.last_at)) {
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
            while (until < rows->size() && at(until) < a.until && at(until) - at(until - 1) <= max_gap && (one_certificate || calibration.constant(at(from), at(until)))) ++until;
            add(i, from, until, ledger::summary_of(std::span(*rows).subspan(from, until - from)));
            from = until;
        }
    }
    for (std::size_t k = first_new; k + 1 < spans_.size(); ++k) spans_[k].joined = spans_[k + 1].first_at - spans_[k].last_at <= max_gap;
}

void Trace::add_checks(const ledger::Store& store, const std::string& place) {
    // the check before belongs to the first pair
    const auto before = store.check_before(place, from_, [&](EntryNumber n) { return known_.is_known(n); });
    const Certificate* last = nullptr;
    std::int64_t runs_out = 0;  // of the last: a day's end is asked of the zone once a certificate
    store.for_each_check(place, before.value_or(from_), [&](const ledger::CheckRow& row) {
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
        if (!checks_.empty() && checks_.back().point.at == row.at) checks_.pop_back();  // of two at one instant the later number holds
        checks_.push_back(c);
    });
}

void Trace::add_parts(std::int64_t max_check_gap, std::int64_t asked_at, std::int64_t stale_after) {
    std::int64_t last = -forever;  // instant of the last reading or check
    if (!spans_.empty()) last = spans_.back().last_at;
    if (!checks_.empty()) last = std::max(last, checks_.back().point.at);
    const Class after_last = asked_at - last <= stale_after ? Class::awaiting : Class::unmonitored;

    // what the pairs of checks say of [from, until), which no logger covers; the rest is unmonitored
    const auto fill = [&](std::int64_t from, std::int64_t until) {
        const auto part = [&](std::int64_t end, Class kind, const CheckPoint* earlier, const CheckPoint* later) {
            if (from >= end) return;
            parts_.push_back({from, end, kind, earlier, later});
            from = end;
        };
        // of the pairs (k - 1, k) of checks, from the first that ends after `from`
        for (std::size_t k = std::max(std::size_t{1}, check_at(from)); k < checks_.size() && checks_[k - 1].point.at < until; ++k) {
            const CheckPoint &earlier = checks_[k - 1], &later = checks_[k];
            if (!later.lowest && later.point.at - earlier.point.at > max_check_gap) continue;
            part(earlier.point.at, Class::unmonitored, nullptr, nullptr);
            part(std::min(until, later.point.at), later.lowest ? Class::bounded : Class::checked, &earlier, &later);
        }
        part(std::min(until, last), Class::unmonitored, nullptr, nullptr);
        part(until, after_last, nullptr, nullptr);
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
    return static_cast<std::size_t>(std::partition_point(spans_.begin(), spans_.end(), [&](const Span& s) { return s.last_at < t; }) - spans_.begin());
}

std::size_t Trace::part_at(std::int64_t t) const {
    return static_cast<std::size_t>(std::partition_point(parts_.begin(), parts_.end(), [&](const Part& p) { return p.until <= t; }) - parts_.begin());
}

std::size_t Trace::check_at(std::int64_t t) const {
    return static_cast<std::size_t>(std::partition_point(checks_.begin(), checks_.end(), [&](const CheckPoint& c) { return c.point.at < t; }) - checks_.begin());
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
