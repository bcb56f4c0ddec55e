#include "quantities/zone_rules.hpp"

#include <date/tz.h>
#include <date/tz_private.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string_view>

#include "coldtally/error.hpp"
#include "coldtally/nearest.hpp"
#include "quantities/yearly_rule.hpp"

namespace coldtally {

namespace {

using Seconds = date::sys_seconds;

constexpr const char* zone_folder = "/usr/share/zoneinfo";

/// The bytes of a zone's file; empty where the name is none, or the file no zone.
std::string zone_file(const std::string& name) {
    const bool plain = !name.empty() && name.front() != '/' && name.find("..") == std::string::npos &&
                       name.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_+-/") ==
                           std::string::npos;
    if (!plain) return {};
    const std::string file = zone_folder + ("/" + name);
    std::error_code unknown;
    if (!std::filesystem::is_regular_file(file, unknown)) return {};
    std::ifstream in(file, std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(in), {}};
    return bytes.compare(0, 4, "TZif") == 0 ? bytes : std::string();
}

/// The rule for the time after the last listed change. The date library leaves it out, so that its summers would end
/// with the listed changes, in most zones in 2037.
std::optional<YearlyRule> footer(const std::string& bytes) {
    if (bytes.size() < 2 || bytes.back() != '\n') return std::nullopt;
    const auto start = bytes.rfind('\n', bytes.size() - 2);
    if (start == std::string::npos) return std::nullopt;
    return YearlyRule::parse(std::string_view(bytes).substr(start + 1, bytes.size() - start - 2));
}

class Listed final : public ZoneRules {
public:
    /// Reads this one zone: locate_zone would first look at every file of the system's zone data.
    Listed(const std::string& name, const std::string& bytes)
        : zone_(name, date::detail::undocumented{}), after_(footer(bytes)) {
        // the last stretch that the file lists, found from a time after all of them
        const auto last = zone_.get_info(Seconds(date::sys_days(date::year{2199} / 12 / 31)));
        last_begin_ = last.begin.time_since_epoch().count();
    }
    std::int64_t offset_at(std::int64_t utc) const override {
        const Seconds t{std::chrono::seconds(utc)};
        if (after_ && utc >= last_begin_) return after_->offset_at(utc);
        return zone_.get_info(t).offset.count();
    }

private:
    date::time_zone zone_;
    std::int64_t last_begin_ = 0;
    std::optional<YearlyRule> after_;
};

/// The zone of stored instants, without the system's data.
class Utc final : public ZoneRules {
    std::int64_t offset_at(std::int64_t) const override { return 0; }
};

}  // namespace

std::vector<std::string> zones_like(const std::string& name) {
    const auto plain = [](std::string text) {
        std::transform(text.begin(), text.end(), text.begin(), [](char c) {
            return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c == ' ' ? '_' : c;
        });
        return text;
    };
    std::map<std::string, std::string> zones;  // by name and by city, in small letters
    std::ifstream table(zone_folder + std::string("/zone.tab"));
    for (std::string line; std::getline(table, line);) {
        std::istringstream columns(line);
        std::string country, where, zone;
        if (line.starts_with("#") || !(columns >> country >> where >> zone)) continue;
        zones.emplace(plain(zone), zone);
        zones.emplace(plain(zone.substr(zone.rfind('/') + 1)), zone);
    }
    std::vector<std::string> known, out;
    for (const auto& [word, zone] : zones) known.push_back(word);
    if (const auto same = zones.find(plain(name)); same != zones.end()) return {same->second};
    for (const auto& word : nearest(plain(name), known))
        if (std::find(out.begin(), out.end(), zones[word]) == out.end()) out.push_back(zones[word]);
    return out;
}

std::shared_ptr<const ZoneRules> ZoneRules::load(const std::string& name) {
    if (name == "UTC") return std::make_shared<Utc>();
    const std::string bytes = zone_file(name);
    if (bytes.empty()) {
        std::error_code unknown;
        if (!std::filesystem::is_directory(zone_folder, unknown))
            throw Error(Code::machine, "no data of time zones on this computer (" + std::string(zone_folder) +
                                           " is not there): install tzdata");
        return nullptr;
    }
    try {
        return std::make_shared<Listed>(name, bytes);
    } catch (const std::runtime_error&) {
        return nullptr;
    }
}

}  // namespace coldtally
