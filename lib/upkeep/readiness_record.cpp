// Readiness: the temperature record and its checks, and the devices that make it.
#include <algorithm>
#include <map>
#include <set>

#include "conditions/rule_times.hpp"
#include "conditions/validity.hpp"
#include "quantities/calendar.hpp"
#include "trace/calibration.hpp"
#include "upkeep/check_days.hpp"
#include "upkeep/readiness.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using Urgency = ReadinessAnswer::Urgency;
using Matter = ReadinessAnswer::Matter;
using Times = std::vector<std::pair<std::int64_t, std::int64_t>>;

/// Time without what should have told of it.
struct Gap {
    std::int64_t from = 0, until = 0;
    std::int64_t unknown = 0;  ///< seconds of it of which nothing at all is known
    bool logger = false;       ///< a logger was there
    bool ends_unknown = false;
};

/// Of the time in which a place was in use: what its logger missed, and what nobody noted where it had none.
std::vector<Gap> gaps_of(World& w, const std::string& place, const Times& in_use, std::int64_t max_gap) {
    std::vector<Gap> out;
    const auto add = [&](std::int64_t from, std::int64_t until, bool unknown, bool logger) {
        if (from >= until) return;
        if (out.empty() || out.back().until != from || out.back().logger != logger)
            out.push_back({from, from, 0, logger, false});
        out.back().until = until;
        out.back().ends_unknown = unknown;
        if (unknown) out.back().unknown += until - from;
    };
    const auto& parts = w.engine.trace_of(place).parts();
    for (const auto& [a, b] : in_use)
        for (std::size_t i = w.engine.trace_of(place).part_at(a); i < parts.size() && parts[i].from < b; ++i) {
            if (parts[i].kind == Class::awaiting) continue;  // the logger has not been read yet
            const bool unknown = parts[i].kind == Class::unmonitored;
            std::int64_t t = std::max(a, parts[i].from);
            const std::int64_t end = std::min(b, parts[i].until);
            for (const auto& as : w.engine.assignments()) {
                if (as.place != place || as.until <= t || as.from >= end) continue;
                if (unknown) add(t, std::min(as.from, end), true, false);
                t = std::max(t, as.from);
                add(t, std::min(as.until, end), unknown, true);
                t = std::max(t, std::min(as.until, end));
            }
            if (unknown) add(t, end, true, false);
        }
    // What touches is one time, whether a logger was there or not: a logger that is exchanged slowly leaves one gap,
    // not two short ones.
    std::vector<Gap> long_ones;
    for (std::size_t i = 0; i < out.size();) {
        std::size_t end = i + 1;
        while (end < out.size() && out[end].from == out[end - 1].until) ++end;
        if (out[end - 1].until - out[i].from > max_gap)
            long_ones.insert(long_ones.end(), out.begin() + static_cast<std::ptrdiff_t>(i),
                             out.begin() + static_cast<std::ptrdiff_t>(end));
        i = end;
    }
    return long_ones;
}

Remark rule_words(const Inspection& in, const ProgrammeRules::Checks& rule) {
    std::vector<Field> weekdays, by;
    for (const int d : rule.weekdays) weekdays.emplace_back(weekday_words(d));
    for (const int s : rule.by) by.emplace_back(clock_text(s));
    Remark checks = words::checks_a_day(rule.per_day);
    if (!by.empty()) checks = words::checks_by(std::move(checks), words::listed(by));
    if (rule.min_max) checks = words::checks_with_min_max(std::move(checks));
    return words::checks_on(std::move(checks), words::listed(weekdays), in.by_programme());
}

/// What one rule finds of one place.
class PlaceChecks {
public:
    PlaceChecks(Inspection& in, const ProgrammeRules::Checks& rule, const std::string& place)
        : in_(in), rule_(rule), days_of_rule_(in.w, rule, place, in.out.from.seconds_since_1970()) {}

    /// A day that began while the place was in use.
    void day(Date date, const Times& in_use) {
        const auto asked = days_of_rule_.asked(date);
        if (asked.empty()) return;
        const auto [begins, ends] = day_of(in_.w.known.zone(), date);
        std::int64_t missing = 0;
        for (const auto& one : asked) {
            if (one.deadline > in_.w.at || !used(in_use, begins, one.deadline)) continue;
            in_.looked(one.made);
            if (one.made) continue;
            ++missing;
            if (!since_) since_ = one.deadline;
        }
        if (missing == 0) return;
        missed_ += missing;
        const bool enough = days_of_rule_.count(begins, ends - 1, rule_.min_max) >= rule_.per_day;
        const bool enough_of_any = days_of_rule_.count(begins, ends - 1, false) >= rule_.per_day;
        days_.push_back(words::colon(date.text(), enough          ? words::checks_late(missing)
                                                  : enough_of_any ? words::checks_without_min_max(missing)
                                                                  : words::checks_missing(missing, rule_.per_day)));
    }

    void find(const std::string& place) {
        if (!since_) return;
        in_.find(Urgency::overdue, place, words::checks_not_made(missed_, words::days(days_.size())), Instant(*since_))
            .details = std::move(days_);
    }

private:
    static bool used(const Times& in_use, std::int64_t from, std::int64_t until) {
        return std::any_of(in_use.begin(), in_use.end(),
                           [&](const auto& i) { return i.first <= from && until <= i.second; });
    }

    Inspection& in_;
    const ProgrammeRules::Checks& rule_;
    CheckDays days_of_rule_;
    std::optional<std::int64_t> since_;
    std::int64_t missed_ = 0;
    std::vector<Remark> days_;
};

/// Seconds in use that rest on a line between plain checks, which no logger saw.
Rational between_plain_checks(World& w, const std::string& place, const Times& in_use) {
    std::int64_t out = 0;
    const auto& trace = w.engine.trace_of(place);
    for (const auto& [a, b] : in_use)
        for (std::size_t i = trace.part_at(a); i < trace.parts().size() && trace.parts()[i].from < b; ++i)
            if (trace.parts()[i].kind == Class::checked)
                out += std::max<std::int64_t>(
                    0, std::min(b, trace.parts()[i].until) - std::max(a, trace.parts()[i].from));
    return Rational(out);
}

Remark gap_words(const Inspection& in, const Gap& g) {
    Remark out = (g.logger ? words::logger_gap : words::no_logger_no_check)(
        in.local(Instant(g.from)), in.local(Instant(g.until)), duration_words(Rational(g.until - g.from), true));
    if (g.unknown == 0) return words::gap_with_checks(std::move(out));
    if (g.unknown < g.until - g.from)
        return words::gap_partly_unknown(std::move(out), duration_words(Rational(g.unknown), true));
    return out;
}

/// All gaps of a place as one finding.
void find_gaps(Inspection& in, const std::string& place, const std::vector<Gap>& gaps) {
    const bool all_loggers = std::all_of(gaps.begin(), gaps.end(), [](const Gap& g) { return g.logger; });
    std::int64_t unknown = 0;
    std::vector<Remark> details;
    for (const Gap& g : gaps) {
        unknown += g.unknown;
        details.push_back(gap_words(in, g));
    }
    const auto last = in.w.engine.trace_of(place).last();
    const bool goes_on = gaps.back().until >= in.w.at && !(last && *last >= in.w.at);  // read just now, it has ended
    Remark text = (all_loggers ? words::logger_gaps : words::gaps)(gaps.size());
    text = unknown == 0 ? words::gap_with_checks(std::move(text))
                        : words::gap_unknown(std::move(text), duration_words(Rational(unknown), true));
    if (goes_on) text = (gaps.size() == 1 ? words::gap_goes_on : words::last_gap_goes_on)(std::move(text));
    in.find(goes_on && gaps.back().ends_unknown ? Urgency::act : Urgency::overdue, place, std::move(text),
            Instant(gaps.front().from))
        .details = std::move(details);
}

void inspect_gaps(Inspection& in) {
    in.topic(Matter::temperature_record, words::rule_temperature_record, words::places);
    for (const auto& [place, definitions] : in.w.known.places) {
        if (definitions.empty()) continue;
        const Times in_use = in.in_use(place);
        if (in_use.empty()) continue;
        const auto gaps =
            gaps_of(in.w, place, in_use, in.w.place(place).max_gap.value_or(Place::usual_max_gap).seconds());
        const Rational guessed = between_plain_checks(in.w, place, in_use);
        in.looked(gaps.empty() && guessed.sign() == 0);
        if (guessed.sign() > 0)
            in.find(Urgency::overdue, place, words::between_plain_checks(duration_words(guessed, true)), std::nullopt);
        if (!gaps.empty()) find_gaps(in, place, gaps);
    }
}

void inspect_checks(Inspection& in) {
    if (!in.rules() || in.rules()->checks.empty())
        return in.not_judged(Matter::checks, words::no_rule_checks);
    const Zone& zone = in.w.known.zone();
    const std::int64_t first = calendar::days_of(zone.local(in.out.from).date),
                       last = calendar::days_of(zone.local(in.w.head.at).date);
    for (const auto& rule : in.rules()->checks) {
        in.topic(Matter::checks, rule_words(in, rule), words::matter_checks);
        for (const auto& [place, definitions] : in.w.known.places) {
            if (definitions.empty()) continue;
            const PlaceType type = in.w.place(place).type;
            if (!is_for(rule.places, type)) continue;
            const Times in_use = in.in_use(place);
            if (in_use.empty()) continue;
            PlaceChecks days(in, rule, place);
            for (std::int64_t d = first; d <= last; ++d) days.day(calendar::date_of(d), in_use);
            days.find(place);
        }
    }
}

/// Probes at work: in a place now, or the thermometer of a check since `from`; with the place, and since when they have
/// been.
std::map<std::string, std::pair<std::string, Instant>> probes_at_work(Inspection& in) {
    std::map<std::string, std::pair<std::string, Instant>> out;
    for (const auto& [place, definitions] : in.w.known.places) {
        if (definitions.empty()) continue;
        for (const auto& row : in.w.store.checks(place, in.out.from.seconds_since_1970()))
            if (row.probe && row.at <= in.w.at && in.w.known.is_known(row.entry))
                out.try_emplace(*row.probe, place, Instant(row.at));
    }
    for (const auto& a : in.w.engine.assignments())
        if (a.from <= in.w.at && a.until > in.w.at) out.insert_or_assign(a.probe, std::pair(a.place, Instant(a.from)));
    return out;
}

/// The times at which a probe had no valid certificate.
struct Lapsed {
    std::vector<Remark> times;
    std::optional<Instant> since;
};
Lapsed lapsed_of(Inspection& in, const std::string& probe) {
    Lapsed out;
    for (const auto& [place, definitions] : in.w.known.places) {
        if (definitions.empty()) continue;
        for (const Lapse& l : lapses(in.w, place, in.out.from.seconds_since_1970(), in.w.at)) {
            if (l.probe != probe) continue;
            if (!out.since || Instant(l.from) < *out.since) out.since = Instant(l.from);
            out.times.push_back((l.none ? words::lapse_without_certificate : words::lapse_expired)(
                place, time_words(l, in.w.known.zone())));
        }
    }
    return out;
}

void inspect_certificate(Inspection& in, const std::string& probe, const std::string& place, Instant since,
                         std::optional<std::int64_t> days) {
    const Zone& zone = in.w.known.zone();
    const Lapsed past = lapsed_of(in, probe);
    const Certificate* held = trace::Calibration(in.w.known, probe).at(in.w.at);
    std::optional<Instant> ends, renew;
    if (held) {
        ends = zone.end_of_day(held->expires);
        if (days)
            for (const auto& c : in.w.known.certificates.at(probe))
                if (&c.fact == held) renew = in.due(Instant(c.at), *days);
    }
    const Instant now = in.w.head.at, soon = now + Duration(ReadinessAnswer::soon_days * 86400);
    const auto find = [&](Urgency urgency, Remark text, Instant when) {
        in.looked(urgency == Urgency::soon);
        in.find(urgency, words::probe_named(probe), std::move(text), when).details = past.times;
    };
    const auto expires = [&] { return words::certificate_expires(held->expires.text(), place); };
    if (!held)
        find(Urgency::overdue, words::no_certificate(place), since);
    else if (*ends <= now)
        find(Urgency::overdue, words::certificate_expired(held->expires.text(), place), *ends);
    else if (renew && *renew <= now)
        find(Urgency::overdue, words::not_calibrated_in_time(place), *renew);
    else if (past.since) {
        find(Urgency::overdue, words::was_without_certificate, *past.since);
        if (*ends <= soon) in.find(Urgency::soon, words::probe_named(probe), expires(), *ends);
    } else if (*ends <= soon)
        find(Urgency::soon, expires(), *ends);
    else if (renew && *renew <= soon)
        find(Urgency::soon, words::to_be_calibrated(in.local(*renew), place), *renew);
    else
        in.looked(true);
}

void inspect_certificates(Inspection& in, const std::map<std::string, std::pair<std::string, Instant>>& probes) {
    const auto days = in.every_days("certificate");
    in.topic(Matter::certificates,
             days ? words::semicolon(words::rule_certificates(), in.every_words(*days)) : words::rule_certificates(),
             words::things_probes);
    for (const auto& [probe, where] : probes) inspect_certificate(in, probe, where.first, where.second, days);
}

void inspect_logger_readings(Inspection& in, const std::map<std::string, std::pair<std::string, Instant>>& probes) {
    const auto days = in.every_days("logger reading");
    if (!days) return in.not_judged(Matter::logger_readings, words::no_rule_logger_readings);
    in.topic(Matter::logger_readings, in.every_words(*days), words::things_probes_in_a_place);
    for (const auto& [probe, where] : probes) {
        const auto& assignments = in.w.engine.assignments();
        if (std::none_of(assignments.begin(), assignments.end(), [&, &probe = probe](const auto& a) {
                return a.probe == probe && a.from <= in.w.at && a.until > in.w.at;
            }))
            continue;
        EntryNumber last = 0;
        if (const auto id = in.w.store.probe(probe))
            for (const auto& block : in.w.store.blocks(*id, -trace::forever))
                if (in.w.known.is_known(block.entry)) last = std::max(last, block.entry);
        const Instant read = last > 0 ? in.w.store.recorded(last) : where.second;
        const Instant due = in.due(read, *days);
        in.looked(in.w.head.at < due);
        if (in.w.head.at >= due)
            in.find(Urgency::overdue, words::probe_named(probe),
                    (last > 0 ? words::logger_last_read : words::logger_never_read)(in.local(read), where.first), due);
    }
}

}  // namespace

void inspect_record(Inspection& in) {
    inspect_gaps(in);
    inspect_checks(in);
}

void inspect_devices(Inspection& in) {
    const auto probes = probes_at_work(in);
    inspect_certificates(in, probes);
    inspect_logger_readings(in, probes);
}

}  // namespace coldtally::answers
