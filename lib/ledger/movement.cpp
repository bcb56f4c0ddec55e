#include "ledger/movement.hpp"

#include "words/file.hpp"
#include "words/general.hpp"

namespace coldtally::ledger {

namespace {

template <class T>
MovementNames leaving(MovementOp op, const T& t, bool flag = false) {
    return {op, t.product, t.lot, t.fund, t.place, t.mark, {}, {}, t.doses.count(), flag};
}

struct Names {
    std::optional<MovementNames> operator()(const Receive& r) const {
        return MovementNames{MovementOp::receive,   r.product, r.lot, r.fund, {}, {}, r.place, r.mark, r.doses.count(),
                             r.handover.has_value()};
    }
    std::optional<MovementNames> operator()(const Move& m) const {
        return MovementNames{MovementOp::move, m.product,  m.lot,     m.fund,          m.from_place,
                             m.from_mark,      m.to_place, m.to_mark, m.doses.count(), false};
    }
    std::optional<MovementNames> operator()(const Give& g) const { return leaving(MovementOp::give, g, !g.certain); }
    std::optional<MovementNames> operator()(const Waste& w) const { return leaving(MovementOp::waste, w); }
    std::optional<MovementNames> operator()(const Return& r) const { return leaving(MovementOp::give_back, r); }
    std::optional<MovementNames> operator()(const Transfer& t) const { return leaving(MovementOp::transfer, t); }
    std::optional<MovementNames> operator()(const Count& c) const { return leaving(MovementOp::count, c); }
    std::optional<MovementNames> operator()(const BeyondUse& b) const {
        return MovementNames{MovementOp::beyond_use, b.product, b.lot, b.fund, b.place, b.mark, {}, {}, 0, false};
    }
    template <class Other>
    std::optional<MovementNames> operator()(const Other&) const {
        return std::nullopt;
    }
};

}  // namespace

std::optional<MovementNames> movement_names(const Fact& fact) { return std::visit(Names{}, fact); }

std::int64_t StockWalk::doses(std::int64_t holding) const {
    const auto it = doses_.find(holding);
    return it == doses_.end() ? 0 : it->second;
}

std::optional<Remark> StockWalk::apply(const Movement& m) {
    const std::int64_t there = m.source ? doses(m.source) : 0;
    switch (m.op) {
        case MovementOp::receive: doses_[m.target] += m.doses; break;
        case MovementOp::count:
            if (m.doses > 0 && there == 0) return words::counts_where_none(words::doses(m.doses));
            if (there > 0) doses_[m.source] = m.doses;
            break;
        case MovementOp::beyond_use: break;
        default:
            if (there < m.doses) return words::takes_more(words::doses(m.doses), there);
            doses_[m.source] -= m.doses;
            if (m.target) doses_[m.target] += m.doses;
    }
    return std::nullopt;
}

}  // namespace coldtally::ledger
