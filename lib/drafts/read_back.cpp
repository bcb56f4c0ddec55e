#include "drafts/read_back.hpp"

#include "text/json_text.hpp"

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

std::string both_scales(const Range& range) {
    if (range.low && range.high) return both_scales(*range.low) + " to " + both_scales(*range.high);
    return range.low ? "at least " + both_scales(*range.low) + ", with no upper limit"
                     : "at most " + both_scales(*range.high) + ", with no lower limit";
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
void add_if(Lines& out, const char* name, const std::optional<T>& value) {
    if (value) out.push_back({name, *value});
}

void add_duration(Lines& out, const char* name, const std::optional<Duration>& stated, Duration usual) {
    out.push_back(
        {name, whole_duration_words(stated.value_or(usual)) + (stated ? "" : ", the usual, since none is stated")});
}

struct Reader {
    Scale probe_scale;

    Lines operator()(const Site& s) const {
        Lines out{{"name", s.name}, {"time zone", s.zone}};
        add_duration(out, "time without known temperature that does not yet mean quarantine", s.unmonitored_limit,
                     Duration(0));
        add_duration(out, "data that have not come count as not known after", s.stale_after, Duration(86400));
        return out;
    }
    Lines operator()(const Product& p) const {
        Lines out{{"name", p.name}, {"range", both_scales(p.range)}};
        out.push_back({"freeze limit", p.freeze_limit ? "frozen at or below " + both_scales(*p.freeze_limit)
                                                      : "none: no temperature counts as freezing, only as too cold"});
        const auto& allowances = p.allowances.value_or(std::vector<Allowance>());
        for (std::size_t i = 0; i < allowances.size(); ++i)
            out.push_back(
                {"allowance " + std::to_string(i + 1), whole_duration_words(allowances[i].seconds) + " in all from " +
                                                           both_scales(Range{allowances[i].low, allowances[i].high}) +
                                                           ", by " + allowances[i].source});
        if (allowances.empty()) out.push_back({"allowances", "none: all time out of range waits for guidance"});
        const auto& events = p.beyond_use.value_or(std::map<std::string, Duration>());
        for (const auto& [event, period] : events)
            out.push_back({"beyond-use after " + text::quoted(event), whole_duration_words(period)});
        if (events.empty())
            out.push_back({"beyond-use", "not stated, no period after any event: nothing would say how long an opened "
                                         "vial is good"});
        add_if(out, "CVX", p.cvx);
        std::string gtins;
        for (const auto& gtin : p.gtin.value_or(std::vector<std::string>()))
            gtins += (gtins.empty() ? "" : ", ") + gtin;
        if (!gtins.empty()) out.push_back({"GTIN", gtins});
        out.push_back({"doses in a vial",
                       p.doses_per_vial ? std::to_string(p.doses_per_vial->count())
                                        : "not stated: a vial of several doses would be taken as single doses, and "
                                          "nothing would ask when it was opened"});
        return out;
    }
    Lines operator()(const Lot& l) const {
        return {{"expiry", "may be used through " + Date::parse_expiry(l.expiry).text()}};
    }
    Lines operator()(const Place& p) const {
        Lines out{{"name", p.name}, {"type", std::string(place_type_name(p.type))}, {"range", both_scales(p.range)}};
        add_duration(out, "longest step between two readings", p.max_gap, Place::usual_max_gap);
        add_duration(out, "longest step between two checks", p.max_check_gap, Place::usual_max_check_gap);
        add_duration(out, "a reading or check in range speaks for the time around it up to", p.near, Place::usual_near);
        return out;
    }
    Lines operator()(const Probe& p) const {
        Lines out{{"reads in", std::string("°") + scale_letter(p.scale)}};
        add_if(out, "serial number", p.serial);
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
        Lines out{{"valid through", c.expires.text()}};
        add_if(out, "number", c.number);
        out.push_back(
            {"tolerance", c.tolerance ? "±" + difference(*c.tolerance) : "none stated: readings are taken as exact"});
        std::string rows;
        for (const auto& row : c.correction.value_or(std::vector<Certificate::Row>()))
            rows += (rows.empty() ? "at " : ", at ") + Temperature(probe_scale, row.indicated).text() + unit + " add " +
                    difference(row.correction);
        out.push_back({"corrections", rows.empty() ? "none" : rows});
        return out;
    }
    Lines operator()(const Assign& a) const {
        return {{"place", a.place ? *a.place : "none: it is taken out, and its readings are no place's"}};
    }
    Lines operator()(const Maker& m) const {
        Lines out{{"name", m.name}};
        add_if(out, "contact", m.contact);
        add_if(out, "telephone", m.phone);
        add_if(out, "email", m.email);
        return out;
    }
    template <class Other>
    Lines operator()(const Other&) const {
        return {};
    }
};

}  // namespace

std::vector<ReadBack> read_back(const Fact& fact, Scale probe_scale) { return std::visit(Reader{probe_scale}, fact); }

}  // namespace coldtally::answers
