using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

public static partial class Screener
{
    public static partial Report Screen(Plan plan, Policy policy) => throw new NotSupportedException();
}
