#include "ledger/blocks.hpp"

#include <algorithm>
#include <bit>
#include <cstring>
#include <map>
#include <numeric>

#include "coldtally/error.hpp"
#include "text/limits.hpp"

namespace coldtally::ledger {

namespace {

/// Writes at most longest_number bytes; returns the end of what it wrote.
unsigned char* put(unsigned char* p, std::uint64_t n) {
    while (n >= 0x80) {
        *p++ = static_cast<unsigned char>(n | 0x80);
        n >>= 7;
    }
    *p++ = static_cast<unsigned char>(n);
    return p;
}

constexpr std::size_t longest_number = 10, longest_temperature_step = 5;  // one of 64 bits; one of 33

using limits::first_instant, limits::last_instant;

std::uint64_t zigzag(std::int64_t n) {
    return (static_cast<std::uint64_t>(n) << 1) ^ static_cast<std::uint64_t>(n >> 63);
}

void put(Bytes& out, std::uint64_t n) {
    unsigned char bytes[longest_number];
    out.append(bytes, put(bytes, n));
}

void put_signed(Bytes& out, std::int64_t n) { put(out, zigzag(n)); }

std::int64_t signed_of(std::uint64_t zigzagged) {
    return static_cast<std::int64_t>(zigzagged >> 1) ^ -static_cast<std::int64_t>(zigzagged & 1);
}

class Source {
public:
    explicit Source(std::string_view data) : p_(data.data()), end_(data.data() + data.size()) {}
    std::uint64_t next() {
        if (p_ != end_ && static_cast<unsigned char>(*p_) < 0x80) return static_cast<unsigned char>(*p_++);
        std::uint64_t n = 0;
        for (int shift = 0; shift < 64; shift += 7) {
            if (p_ == end_) damaged();
            const auto byte = static_cast<unsigned char>(*p_++);
            n |= static_cast<std::uint64_t>(byte & 0x7f) << shift;
            if (byte < 0x80) return n;
        }
        damaged();
    }
    std::int64_t next_signed() { return signed_of(next()); }
    /// Takes up to `most` numbers of one byte or two, and returns how many; it does not ask which of the two, since no
    /// processor could foresee it. None is taken where a longer one is next or the end is near.
    template <class Take>
    std::uint64_t take_short(std::uint64_t most, Take take) {
        if (static_cast<std::uint64_t>(end_ - p_) < 2 * most) return 0;
        for (std::uint64_t i = 0; i < most; ++i) {
            const unsigned first = static_cast<unsigned char>(p_[0]), second = static_cast<unsigned char>(p_[1]);
            const unsigned two = first >> 7;
            if ((two & (second >> 7)) != 0) return i;
            p_ += 1 + two;
            take((first & 0x7F) | ((second << 7) & -two));
        }
        return most;
    }
    /// The next eight numbers where each has one byte; else null, and nothing is read.
    const unsigned char* eight_of_one_byte() {
        if (end_ - p_ < 8) return nullptr;
        std::uint64_t bytes;
        std::memcpy(&bytes, p_, sizeof bytes);
        if ((bytes & 0x8080808080808080) != 0) return nullptr;
        p_ += 8;
        return reinterpret_cast<const unsigned char*>(p_ - 8);
    }
    void done() const {
        if (p_ != end_) damaged();
    }
    [[noreturn]] static void damaged() { throw Error(Code::damaged, "a block of readings cannot be decoded"); }

private:
    const char *p_, *end_;
};

std::int64_t usual_step(std::span<const Reading> r) {
    std::map<std::int64_t, int> seen;
    for (std::size_t i = 1, run = 0; i < r.size(); i += run) {  // run by run: most steps are as the one before
        const std::int64_t step = (r[i].at - r[i - 1].at).seconds();
        for (run = 1; i + run < r.size() && (r[i + run].at - r[i + run - 1].at).seconds() == step;) ++run;
        seen[step] += static_cast<int>(run);
    }
    std::int64_t best = 0;
    int most = 0;
    for (const auto& [step, times] : seen)
        if (times > most) best = step, most = times;
    return best;
}

/// The greatest common divisor of the temperature steps, 1 where all are 0.
std::int64_t unit_of(std::span<const Reading> r) {
    std::int64_t unit = 0;
    for (std::size_t i = 1; i < r.size(); ++i) {
        const std::int64_t step = std::int64_t{r[i].thousandths} - r[i - 1].thousandths;
        if (unit == 0 || step % unit != 0) unit = std::gcd(unit, step);
        if (unit == 1) break;
    }
    return unit == 0 ? 1 : unit;
}

/// Divides what is a multiple of a number: the multiples of an odd number are told apart by their last 64 bits, so that
/// one multiplication finds which it was. (Warren, Hacker's Delight, exact division by constants.)
class ExactDivision {
public:
    explicit ExactDivision(std::int64_t divisor) : shift_(std::countr_zero(static_cast<std::uint64_t>(divisor))) {
        const auto odd = static_cast<std::uint64_t>(divisor) >> shift_;
        inverse_ = odd;  // right to 3 bits, and each time to twice as many
        for (int bits = 3; bits < 64; bits *= 2) inverse_ *= 2 - odd * inverse_;
    }
    std::int64_t operator()(std::int64_t multiple) const {
        return static_cast<std::int64_t>(static_cast<std::uint64_t>(multiple >> shift_) * inverse_);
    }

private:
    int shift_;
    std::uint64_t inverse_;
};

}  // namespace

BlockSummary summary_of(std::span<const Reading> r) {
    BlockSummary s;
    s.readings = static_cast<std::int64_t>(r.size());
    s.first_at = r.front().at.seconds_since_1970();
    s.last_at = r.back().at.seconds_since_1970();
    s.first = s.lowest = s.highest = r.front().thousandths;
    s.last = r.back().thousandths;
    for (std::size_t i = 1; i < r.size(); ++i) {
        s.longest_step = std::max(s.longest_step, (r[i].at - r[i - 1].at).seconds());
        s.lowest = std::min(s.lowest, r[i].thousandths);
        s.highest = std::max(s.highest, r[i].thousandths);
    }
    return s;
}

Bytes encode_block(std::span<const Reading> r) {
    Bytes out;
    const std::int64_t usual = usual_step(r);
    const std::int64_t unit = unit_of(r);
    put(out, r.size());
    put_signed(out, r.front().at.seconds_since_1970());
    put(out, static_cast<std::uint64_t>(usual));
    put_signed(out, r.front().thousandths);
    put(out, static_cast<std::uint64_t>(unit));
    Bytes others;
    std::uint64_t count = 0;
    std::size_t last = 0;
    for (std::size_t i = 1; i < r.size(); ++i) {
        const std::int64_t this_step = (r[i].at - r[i - 1].at).seconds();
        if (this_step == usual) continue;
        put(others, i - last);
        put(others, static_cast<std::uint64_t>(this_step));
        last = i;
        ++count;
    }
    put(out, count);
    out += others;
    const ExactDivision in_units(unit);
    Bytes steps(longest_temperature_step * r.size(), 0);
    unsigned char* p = steps.data();
    for (std::size_t i = 1; i < r.size(); ++i)
        p = put(p, zigzag(in_units(std::int64_t{r[i].thousandths} - r[i - 1].thousandths)));
    return out.append(steps.data(), p);
}

namespace {

/// A block from the number after its count on; `r` has room for `count` readings. Nothing outside of it is written,
/// whatever the bytes.
void decode(Source& in, std::uint64_t count, Reading* r) {
    std::int64_t at = in.next_signed();
    const std::uint64_t step = in.next();
    const std::int64_t value = in.next_signed();
    const std::uint64_t unit = in.next();
    const std::uint64_t others = in.next();
    const auto no_instant = [](std::int64_t t) { return t < first_instant || t > last_instant; };
    const auto no_temperature = [](std::int64_t t) { return t != static_cast<std::int32_t>(t); };
    // so that 512 steps stay far within 64 bits, and are looked at once, at the end
    if (no_instant(at) || step > last_instant || no_temperature(value) || unit < 1 || unit >> 32 != 0 ||
        others >= count)
        Source::damaged();
    std::uint64_t i = 0;
    r[0].at = Instant(at);
    const auto usual_until = [&](std::uint64_t end) {
        while (i + 1 < end) r[++i].at = Instant(at += static_cast<std::int64_t>(step));
    };
    for (std::uint64_t k = 0; k < others; ++k) {
        const std::uint64_t ahead = in.next();
        if (ahead == 0 || ahead >= count - i || (ahead > 1 && step < 1)) Source::damaged();
        usual_until(i + ahead);
        const std::uint64_t other = in.next();
        if (other < 1 || other > last_instant) Source::damaged();
        r[++i].at = Instant(at += static_cast<std::int64_t>(other));
    }
    if (step < 1 && i + 1 < count) Source::damaged();
    usual_until(count);
    if (no_instant(at)) Source::damaged();
    r[0].thousandths = static_cast<std::int32_t>(value);
    // counted in units, so that the loop has no multiplication to wait for; without sign, so that absurd steps wrap and
    // do no harm
    std::uint64_t units = 0;
    const auto step_by = [&](std::uint64_t k, std::uint64_t n) {
        units += static_cast<std::uint64_t>(signed_of(n));
        r[k].thousandths = static_cast<std::int32_t>(static_cast<std::uint64_t>(value) + units * unit);
    };
    std::uint64_t k = 1;
    while (k < count) {
        if (const unsigned char* eight = k + 8 <= count ? in.eight_of_one_byte() : nullptr) {
            for (int j = 0; j < 8; ++j) step_by(k++, eight[j]);
        } else if (in.take_short(std::min<std::uint64_t>(8, count - k), [&](std::uint64_t n) { step_by(k++, n); }) ==
                   0) {
            step_by(k++, in.next());
        }
    }
    in.done();
}

std::uint64_t count_of(Source& in) {
    const std::uint64_t count = in.next();
    if (count < 1 || count > readings_per_block) Source::damaged();
    return count;
}

}  // namespace

void decode_block(std::string_view data, std::vector<Reading>& out) {
    Source in(data);
    const std::uint64_t count = count_of(in);
    const std::size_t base = out.size();
    out.resize(base + count, Reading{Instant(0), 0});
    decode(in, count, out.data() + base);
}

void decode_block_over(std::string_view data, std::vector<Reading>& out) {
    Source in(data);
    const std::uint64_t count = count_of(in);
    out.resize(count, Reading{Instant(0), 0});
    decode(in, count, out.data());
}

}  // namespace coldtally::ledger
