// What a time zone's clock does: the changes that the system's zone data list, and the rule for the time after them.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace coldtally {

/// Zones whose name, or whose city, a text may be a slip of ("Chicago", "america/chicgo"); none where the system does
/// not list its zones.
std::vector<std::string> zones_like(const std::string& name);

class ZoneRules {
public:
    /// Null where the system has no zone of this name.
    static std::shared_ptr<const ZoneRules> load(const std::string& name);
    virtual ~ZoneRules() = default;
    /// Seconds to add to UTC for the local clock.
    virtual std::int64_t offset_at(std::int64_t utc) const = 0;
};

}  // namespace coldtally
