// Traces: the former name of what stands in the headers of the rooms; goes with the next release.
#pragma once

#include "coldtally/conditions.hpp"
#include "coldtally/stock.hpp"
