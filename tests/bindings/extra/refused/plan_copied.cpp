// A plan has one owner.
#include "mixcalc.hpp"
using namespace mixcalc;

Plan tried(Plan &plan)
{
#ifdef WRONG
    return plan; // says: use of deleted function
#else
    return std::move(plan);
#endif
}
