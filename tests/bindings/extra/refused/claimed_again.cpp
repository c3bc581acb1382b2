// A dose that was claimed is not claimed as a volume rate afterwards.
#include "mixcalc.hpp"
using namespace mixcalc;
using namespace mixcalc::literals;

VolumeRate tried()
{
    const LiquidDose dose{2.5_L_per_ha};
#ifdef WRONG
    return VolumeRate{dose}; // says: no matching function for call to .*VolumeRate
#else
    return VolumeRate{200_L_per_ha + VolumePerArea::from_liters_per_hectare(dose.liters_per_hectare())};
#endif
}
