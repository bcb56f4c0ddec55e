#include "exposure/sum.hpp"

#include <algorithm>
#include <numeric>

namespace coldtally::exposure {

namespace {

/// Of either sign.
Wide gcd(Wide a, Wide b) {
    while (b != 0) {
        const auto x = static_cast<std::int64_t>(a), y = static_cast<std::int64_t>(b);
        if (x == a && y == b) return std::gcd(x, y);
        const Wide r = a % b;
        a = b;
        b = r;
    }
    return a;
}

/// The sum of fractions [from, until), halved again and again so that the numbers stay of one size.
std::pair<BigInt, BigInt> join(const std::vector<std::pair<BigInt, BigInt>>& all, std::size_t from, std::size_t until) {
    if (until - from == 1) return all[from];
    const std::size_t mid = from + (until - from) / 2;
    const auto a = join(all, from, mid), b = join(all, mid, until);
    return {a.first * b.second + b.first * a.second, a.second * b.second};
}

}  // namespace

void Sum::add_whole(Wide n) {
    // the sum of two numbers of 127 bits may not fit: the one that does stays, the other joins the rest
    if (Wide sum; !__builtin_add_overflow(whole_, n, &sum))
        whole_ = sum;
    else
        rest_ += RationalAccess::make(n, Wide(1));
}

void Sum::add(Wide n, Wide d) {
    if (n == 0) return;
    if (d == 1) {
        add_whole(n);
        return;
    }
    const Wide g = gcd(n, d);
    n /= g;
    d /= g;
    if (d == 1) {
        add_whole(n);
        return;
    }
    const auto of_64_bits = static_cast<std::int64_t>(d);
    if (of_64_bits == d)
        add_fraction(n, of_64_bits);
    else
        rest_ += RationalAccess::make(n, d);
}

void Sum::add_fraction(Wide n, std::int64_t d) {
    auto it = std::ranges::lower_bound(fractions_, d, {}, &std::pair<std::int64_t, Wide>::first);
    if (it == fractions_.end() || it->first != d) it = fractions_.insert(it, {d, 0});
    Wide sum;
    if (__builtin_add_overflow(it->second, n, &sum))
        rest_ += RationalAccess::make(n, Wide(d));
    else
        it->second = sum;
}

void Sum::add(const Sum& other) {
    add_whole(other.whole_);
    for (const auto& [d, n] : other.fractions_) add_fraction(n, d);
    if (other.rest_.sign() != 0) rest_ += other.rest_;
}

Rational Sum::total(std::int64_t divisor) const {
    // as many at a time as 128 bits hold, then those; brought to lowest terms once
    std::vector<std::pair<BigInt, BigInt>> all;
    Wide n_of_some = whole_, d_of_some = 1;
    for (const auto& [d, n] : fractions_) {
        Wide more, left, right, both;
        if (__builtin_mul_overflow(d_of_some, Wide(d), &more) || __builtin_mul_overflow(n_of_some, Wide(d), &left) ||
            __builtin_mul_overflow(n, d_of_some, &right) || __builtin_add_overflow(left, right, &both)) {
            all.emplace_back(BigInt(n_of_some), BigInt(d_of_some));
            n_of_some = n;
            d_of_some = d;
        } else {
            n_of_some = both;
            d_of_some = more;
        }
    }
    Rational out;
    if (Wide d; all.empty() && !__builtin_mul_overflow(d_of_some, Wide(divisor), &d)) {
        out = RationalAccess::make(n_of_some, d);
    } else {
        all.emplace_back(BigInt(n_of_some), BigInt(d_of_some));
        auto [n, big_d] = join(all, 0, all.size());
        out = RationalAccess::make(std::move(n), BigInt(big_d * divisor));
    }
    return rest_.sign() == 0 ? out : out + rest_ / Rational(divisor);
}

}  // namespace coldtally::exposure
