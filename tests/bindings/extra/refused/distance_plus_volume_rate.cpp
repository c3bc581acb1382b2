// A walked distance and a volume rate are both lengths to a checker of dimensions.
#include "mixcalc.hpp"
using namespace mixcalc;
using namespace mixcalc::literals;

auto tried()
{
    const VolumeRate rate{200_L_per_ha};
#ifdef WRONG
    return 50_m + rate; // says: no match for .operator\+
#else
    return rate + rate;
#endif
}
