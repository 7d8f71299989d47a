namespace PreApproval.Hazards.Vessels;

/// <summary>The peak from closing up to ever higher temperatures, each built on the one before.</summary>
internal sealed class RisingPeak(ClosedAssessment assessment)
{
    private readonly double closedK = assessment.State.Closing!.TemperatureK;
    private PeakPressure? last;
    private double reachedK;

    public PeakPressure UpTo(double setK, double worstK)
    {
        if (last is not null && worstK >= reachedK)
        {
            last = last.Then(PeakPressure.Between(assessment.Charge, reachedK, worstK));
        }
        else
        {
            last = PeakPressure.Between(assessment.Charge, Math.Min(closedK, setK), worstK);
        }

        reachedK = worstK;
        return last;
    }
}
