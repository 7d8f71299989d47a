using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <content>The same vessel with more or less in it.</content>
internal sealed partial record ClosedAssessment
{
    /// <summary>The highest gauge pressure in Pa with every amount times a factor; null when full or where no model gives one.</summary>
    internal double? ScaledPaGauge(double factor)
    {
        // what came in after the closing, or condenses, presses by its amount
        if (!ReferenceEquals(State.Contents, State.Closing!.Contents) || UndeclaredGas is not null || LeavesOutHeldGas)
        {
            return Of(SafeWindow.Scaled(State, factor), this)?.WorstPaGauge;
        }

        var contents = new ChargedSubstance[Input.Contents.Count];
        for (var index = 0; index < contents.Length; index++)
        {
            contents[index] = Input.Contents[index] with { Mol = Input.Contents[index].Mol * factor };
        }

        var charge = new SealedCharge(Input with { Contents = contents, GasEvolvedMol = Input.GasEvolvedMol * factor }, Charge);
        var peak = PeakPressure.Between(charge, ColdestK(State), State.WorstTemperatureK).Pressure;
        return peak.LiquidFull ? null : peak.PascalAbs - AtmospherePa;
    }
}
