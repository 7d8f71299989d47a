using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Vessels;

/// <content>Whether what is shut in can fill the vessel.</content>
internal sealed partial class SealedCharge
{
    /// <summary>Volume in m³ of everything that can be liquid or solid at a temperature in K; what has passed its critical temperature is a gas.</summary>
    public double LiquidM3At(double temperatureK)
    {
        var sum = Volume(Mixing) + Volume(Apart) + Volume(Room);
        for (var part = 0; part < Dissolved.Length; part++)
        {
            sum += Dissolved[part].Mol * DissolvedM3PerMol[part];
        }

        return sum;

        double Volume(ChargedPart[] parts)
        {
            double volume = 0;
            foreach (var part in parts)
            {
                volume += part.Substance.CriticalTemperatureK?.Value < temperatureK ? 0 : part.Mol * LiquidVolume.At(part.Substance, temperatureK).M3PerMol;
            }

            return volume;
        }
    }
}
