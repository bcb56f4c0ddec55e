// Value counts: how often each temperature occurs, for the median of millions of them in little memory.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "text/limits.hpp"

namespace coldtally::logger {

class ValueCounts {
public:
    void add(std::int32_t thousandths) {
        const auto n = static_cast<std::size_t>(thousandths - limits::coldest_F);
        auto& page = pages_[n / page_size];
        if (!page) page = std::make_unique<Page>();
        ++(*page)[n % page_size];
        ++count_;
    }
    /// Of an even number of them the upper of the two in the middle; nothing of none.
    std::optional<std::int32_t> median() const {
        std::size_t before = 0;
        for (std::size_t p = 0; p < pages_.size(); ++p) {
            if (!pages_[p]) continue;
            for (std::size_t i = 0; i < page_size; ++i) {
                before += (*pages_[p])[i];
                if (before > count_ / 2) return static_cast<std::int32_t>(p * page_size + i) + limits::coldest_F;
            }
        }
        return std::nullopt;
    }

private:
    static constexpr std::size_t page_size = 1024;
    using Page = std::array<std::uint32_t, page_size>;
    static_assert(limits::coldest_F < limits::coldest_C && limits::hottest_F > limits::hottest_C);
    // those that occur lie close together: few pages are there
    std::vector<std::unique_ptr<Page>> pages_ = std::vector<std::unique_ptr<Page>>(
        static_cast<std::size_t>(limits::hottest_F - limits::coldest_F) / page_size + 1);
    std::size_t count_ = 0;
};

}  // namespace coldtally::logger
