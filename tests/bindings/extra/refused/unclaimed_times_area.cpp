// Whether it is mix or product, a volume per area that nobody has claimed does not say.
#include "mixcalc.hpp"
using namespace mixcalc;
using namespace mixcalc::literals;

Volume tried()
{
#ifdef WRONG
    return 2.5_L_per_ha * 12.4_ha; // says: no match for .operator\*
#else
    return LiquidDose{2.5_L_per_ha} * 12.4_ha;
#endif
}
