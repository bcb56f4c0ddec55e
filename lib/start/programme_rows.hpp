// Programme rows: the tables of a programme's rules as the JSON of one rules entry.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "coldtally/error.hpp"
#include "start/cells.hpp"
#include "start/sheet.hpp"

namespace coldtally::start {

class ProgrammeRows {
public:
    using Mistake = std::function<void(const SheetRow& row, std::string_view column, Code code, std::string why)>;
    ProgrammeRows(const Zone& zone, Instant now, Mistake mistake)
        : zone_(zone), now_(now), mistake_(std::move(mistake)) {}

    /// Is it a row of one of these tables?
    static bool takes(const SheetRow& row);
    void add(const SheetRow& row, Json& rules);

private:
    void head(const SheetRow& row, Json& rules);
    Json condition(const SheetRow& row);
    Json checks(const SheetRow& row);
    template <class Read, class Take>
    void read(const SheetRow& row, std::string_view column, Read how, Take take);
    void places(const SheetRow& row, Json& out);

    Zone zone_;
    Instant now_;
    Mistake mistake_;
};

}  // namespace coldtally::start
