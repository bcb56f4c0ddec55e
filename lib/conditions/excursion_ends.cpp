#include "conditions/excursion_ends.hpp"

#include <algorithm>
#include <map>

#include "words/conditions.hpp"

namespace coldtally::answers {

namespace {

/// The ends of the line of a trace that holds [t, t + a little).
std::pair<std::int64_t, std::int64_t> line_at(const trace::Trace& trace, const Rational& t) {
    const std::int64_t second = t.floor();
    const auto& spans = trace.spans();
    const std::size_t i = trace.span_at(second + 1);  // the first that ends after it
    if (i < spans.size() && spans[i].first_at <= second) {
        std::vector<trace::Point> rows;
        spans[i].read(rows);
        std::size_t r = 0;
        while (r + 2 < rows.size() && rows[r + 1].at <= second) ++r;
        return {rows[r].at, rows[r + 1].at};
    }
    if (i > 0 && i < spans.size() && spans[i - 1].joined && spans[i - 1].last_at <= second)
        return {spans[i - 1].last_at, spans[i].first_at};
    const auto& part = trace.parts()[trace.part_at(second)];
    return {part.from, part.until};
}

const Rational& at_most(const Exposure& e, Side side) { return side == Side::warm ? e.warm.at_most : e.cold.at_most; }

}  // namespace

std::pair<Rational, Rational> around(World& w, const std::string& place, const Found& f) {
    if (f.kind != ExcursionKind::line) return {f.from, f.until};
    const auto& trace = w.engine.trace_of(place);
    return {f.cut_before ? f.from : Rational(line_at(trace, f.pieces.front().from).first),
            f.cut_after ? f.until : Rational(line_at(trace, f.pieces.back().from).second)};
}

std::optional<Remark> cut_words(const Found& f) {
    if (!f.cut_before && !f.cut_after) return std::nullopt;
    return words::cut_by_window(f.cut_before && f.cut_after ? words::at_both_ends
                                : f.cut_before              ? words::at_its_beginning
                                                            : words::at_its_end);
}

std::vector<Remark> end_marks(World& w, const std::string& place, const Found& f,
                              const std::vector<std::pair<HoldingKey, Rational>>& inside) {
    std::vector<Remark> out;
    const Zone& zone = w.known.zone();
    if (auto cut = cut_words(f)) out.push_back(std::move(*cut));
    if (f.kind != ExcursionKind::line) return out;
    const auto [a, b] = around(w, place, f);
    if (a == f.from && b == f.until) return out;
    const auto over = w.engine.over_range(w.place(place).range, place, a.floor(), b.ceil(), false);
    Rational whole;
    for (const auto& p : f.pieces) whole += p.until - p.from;
    const Rational most = std::max(whole, at_most(over, f.side));
    if (most > whole)
        out.push_back(words::end_unread(a >= f.from     ? words::it_ended
                                        : b > f.until ? words::it_began_and_ended
                                                      : words::it_began,
                                        duration_words(most, true), zone.local_text(Instant(a.floor())),
                                        zone.local_text(Instant(b.ceil()))));
    std::map<std::pair<std::string, std::string>, Rational> of_lots;
    for (const auto& [key, longest] : inside) {
        auto& of = of_lots[{key.product, key.lot}];
        of = std::max(of, longest);
    }
    for (const auto& [lot, longest] : of_lots)
        if (longest > whole && longest != most)
            out.push_back(words::lot_out_at_most(lot.first, lot.second, duration_words(longest, true)));
    return out;
}

}  // namespace coldtally::answers
