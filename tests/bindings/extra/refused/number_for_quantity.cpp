// A bare number where a quantity is due.
#include "mixcalc.hpp"
using namespace mixcalc;
using namespace mixcalc::literals;

Volume tried()
{
#ifdef WRONG
    return mix(VolumeRate{200_L_per_ha}, 12.4); // says: double.* to .*Area
#else
    return mix(VolumeRate{200_L_per_ha}, Area::from_hectares(12.4));
#endif
}
