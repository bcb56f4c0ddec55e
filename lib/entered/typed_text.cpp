#include "entered/typed_text.hpp"

#include <utf8proc.h>

#include <algorithm>
#include <cstdlib>
#include <string_view>

namespace coldtally::answers {

void for_each_typed(const text::Json& entry, const std::function<void(const std::string&)>& take) {
    constexpr std::string_view not_typed[] = {"kind", "at",   "recorded", "by",    "through", "since",
                                              "use_by", "patient", "scale",    "sha256", "handover"};
    for (const auto& [key, value] : entry.items()) {
        if (entry.is_object() && std::ranges::find(not_typed, std::string_view(key)) != std::end(not_typed)) continue;
        if (value.is_string())
            take(value.get_ref<const std::string&>());
        else if (value.is_structured())
            for_each_typed(value, take);
    }
}

std::string without_case(const std::string& text) {
    utf8proc_uint8_t* folded = nullptr;
    const auto size = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                   static_cast<utf8proc_ssize_t>(text.size()), &folded,
                                   utf8proc_option_t(UTF8PROC_CASEFOLD | UTF8PROC_COMPOSE | UTF8PROC_STABLE));
    if (size < 0) return text;
    std::string out(reinterpret_cast<const char*>(folded), static_cast<std::size_t>(size));
    std::free(folded);
    return out;
}

}  // namespace coldtally::answers
