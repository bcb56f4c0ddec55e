#include "drafts/read_back.hpp"

#include "question/said.hpp"
#include "text/json_text.hpp"
#include "words/definitions.hpp"
#include "words/drafts_limits.hpp"
#include "words/history.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

std::string exact_words(const Rational& degrees) {
    const Rational thousandths = degrees * Rational(1000);
    if (thousandths.is_whole()) return Temperature(Scale::C, static_cast<std::int32_t>(thousandths.floor())).text();
    const Rational size = degrees.sign() < 0 ? -degrees : degrees;
    const std::int64_t whole = size.floor();
    return (degrees.sign() < 0 ? "-" : "") + (whole == 0 ? "" : std::to_string(whole) + " ") +
           (size - Rational(whole)).text();
}

std::string both_scales(const Limit& limit) {
    const auto degrees = [](const std::string& number, Scale s) { return number + " °" + scale_letter(s); };
    const Scale first = limit.C ? Scale::C : Scale::F, other = limit.C ? Scale::F : Scale::C;
    const auto& stated = limit.C ? limit.C : limit.F;
    const std::string begins = degrees(stated->text(), first);
    if (limit.C && limit.F) return begins + " (" + degrees(limit.F->text(), Scale::F) + ")";
    return begins + " (= " + degrees(exact_words(limit.in(other)), other) + ")";
}

Remark both_scales(const Range& range) {
    if (range.low && range.high)
        return words::from_to(both_scales(*range.low), both_scales(*range.high));
    return range.low ? words::range_without_upper(both_scales(*range.low))
                     : words::range_without_lower(both_scales(*range.high));
}

std::string whole_duration_words(Duration duration) {
    std::int64_t left = duration.seconds();
    std::string out;
    const auto take = [&](std::int64_t size, const char* unit) {
        if (left < size) return;
        out += (out.empty() ? "" : " ") + std::to_string(left / size) + unit;
        left %= size;
    };
    if (left >= 2 * 86400) take(86400, " d");
    take(3600, " h");
    take(60, " min");
    take(1, " s");
    return out.empty() ? "0 s" : out;
}

namespace {

using Lines = std::vector<ReadBack>;

template <class T>
void add_if(Lines& out, const Remark& name, const std::optional<T>& value) {
    if (value) out.push_back({name, *value});
}

void add_duration(Lines& out, const Remark& name, const std::optional<Duration>& stated, Duration usual) {
    const std::string time = whole_duration_words(stated.value_or(usual));
    out.push_back({name, stated ? Field(time) : words::usual_time(time)});
}

void add_allowances(Lines& out, const std::vector<Allowance>& all) {
    for (std::size_t i = 0; i < all.size(); ++i)
        out.push_back({words::allowance_numbered(i + 1),
                       words::allowance_by(whole_duration_words(all[i].seconds),
                                           both_scales(Range{all[i].low, all[i].high}), all[i].source)});
    if (all.empty()) out.push_back({words::stated_allowances, words::no_allowances()});
}

void add_periods(Lines& out, const std::map<std::string, Duration>& events) {
    for (const auto& [event, period] : events)
        out.push_back({words::stated_period(text::quoted(event)), whole_duration_words(period)});
    if (events.empty()) out.push_back({words::name_beyond_use, words::no_periods()});
}

struct Reader {
    Scale probe_scale;

    Lines operator()(const Site& s) const {
        Lines out{{words::stated_name, s.name}, {words::stated_zone, s.zone}};
        add_duration(out, words::stated_unmonitored_limit, s.unmonitored_limit, Duration(0));
        add_duration(out, words::stated_stale_after, s.stale_after, Duration(86400));
        return out;
    }
    Lines operator()(const Product& p) const {
        Lines out{{words::stated_name, p.name}, {words::stated_range, both_scales(p.range)}};
        out.push_back({words::stated_freeze_limit,
                       p.freeze_limit ? words::frozen_at(both_scales(*p.freeze_limit)) : words::no_freeze_limit()});
        add_allowances(out, p.allowances.value_or(std::vector<Allowance>()));
        add_periods(out, p.beyond_use.value_or(std::map<std::string, Duration>()));
        add_if(out, words::stated_cvx, p.cvx);
        const auto gtins = p.gtin.value_or(std::vector<std::string>());
        if (!gtins.empty()) out.push_back({words::stated_gtin, words::names(gtins)});
        out.push_back({words::stated_doses_per_vial,
                       p.doses_per_vial ? Field(p.doses_per_vial->count()) : words::no_doses_per_vial()});
        return out;
    }
    Lines operator()(const Lot& l) const {
        return {{words::name_expiry, words::used_through(Date::parse_expiry(l.expiry).text())}};
    }
    Lines operator()(const Place& p) const {
        Lines out{{words::stated_name, p.name},
                  {words::stated_type, said::place_type_words(p.type)},
                  {words::stated_range, both_scales(p.range)}};
        add_duration(out, words::stated_max_gap, p.max_gap, Place::usual_max_gap);
        add_duration(out, words::stated_max_check_gap, p.max_check_gap, Place::usual_max_check_gap);
        add_duration(out, words::stated_near, p.near, Place::usual_near);
        return out;
    }
    Lines operator()(const Probe& p) const {
        Lines out{{words::stated_scale, std::string("°") + scale_letter(p.scale)}};
        add_if(out, words::stated_serial, p.serial);
        return out;
    }
    Lines operator()(const Certificate& c) const {
        const std::string unit = std::string(" °") + scale_letter(probe_scale);
        const Scale other = probe_scale == Scale::C ? Scale::F : Scale::C;
        const auto difference = [&](const TemperatureDifference& d) {
            const Rational degrees(d.thousandths(), 1000);
            return d.text() + unit +
                   " (= " + exact_words(degrees * (probe_scale == Scale::C ? Rational(9, 5) : Rational(5, 9))) + " °" +
                   scale_letter(other) + ")";
        };
        Lines out{{words::stated_last_day, c.expires.text()}};
        add_if(out, words::stated_number, c.number);
        out.push_back({words::stated_tolerance,
                       c.tolerance ? Field("±" + difference(*c.tolerance)) : words::no_tolerance()});
        std::vector<Field> rows;
        for (const auto& row : c.correction.value_or(std::vector<Certificate::Row>()))
            rows.push_back(words::correction_at(Temperature(probe_scale, row.indicated).text() + unit,
                                                difference(row.correction)));
        out.push_back({words::lost_corrections, words::listed(rows)});
        return out;
    }
    Lines operator()(const Assign& a) const {
        return {{words::stated_place, a.place ? Field(*a.place) : words::in_no_place()}};
    }
    Lines operator()(const Maker& m) const {
        Lines out{{words::stated_name, m.name}};
        add_if(out, words::stated_contact, m.contact);
        add_if(out, words::stated_phone, m.phone);
        add_if(out, words::stated_email, m.email);
        return out;
    }
    template <class Other>
    Lines operator()(const Other&) const {
        return {};
    }
};

}  // namespace

Remark ReadBack::text() const { return words::colon(name, value); }

std::vector<ReadBack> read_back(const Fact& fact, Scale probe_scale) { return std::visit(Reader{probe_scale}, fact); }

}  // namespace coldtally::answers
