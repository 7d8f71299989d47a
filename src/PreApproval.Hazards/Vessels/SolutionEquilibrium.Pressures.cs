using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Vessels;

/// <content>Partial pressures over the liquid as it stands.</content>
internal sealed partial class SolutionEquilibrium
{
    private double PartialPa(int i)
    {
        if (i >= solvents.Length)
        {
            return SolutePa(i);
        }

        if (!OneLiquid)
        {
            return liquid[i] > 0 || i != water ? solvents[i].SaturationPa * (i == water ? WaterActivity() : 1) : solvents[i].SaturationPa;
        }

        if (i == water && solvents.Length == 1)
        {
            return solvents[i].SaturationPa * WaterActivity();
        }

        double total = 0;
        double others = 0;
        for (var j = 0; j < liquid.Length; j++)
        {
            total += liquid[j];
            others += j < solvents.Length ? liquid[j] : 0;
        }

        if (total <= 0)
        {
            return solvents[i].SaturationPa;
        }

        // beside other liquids: the water keeps its activity coefficient among them and what the solutes leave of it
        return i == water
            ? liquid[i] / Math.Max(others, double.Epsilon) * Math.Exp(logGamma[i]) * solvents[i].SaturationPa * WaterActivity()
            : liquid[i] / total * Math.Exp(logGamma[i]) * solvents[i].SaturationPa;
    }

    private double WaterActivity()
    {
        double activity = 1;
        for (var s = 0; s < solutes.Length; s++)
        {
            activity *= SolutionVapour.Aqueous(solutes[s].Substance, liquid[solvents.Length + s], liquid[water], point.TemperatureK)?.WaterActivity ?? 1;
        }

        return activity;
    }

    private double SolutePa(int i)
    {
        var solute = solutes[i - solvents.Length].Substance;
        if (water >= 0 && SolutionVapour.Aqueous(solute, liquid[i], liquid[water], point.TemperatureK) is { } aqueous)
        {
            return liquid[i] > 0 ? aqueous.SolutePa : 0;
        }

        var total = liquid.Sum();
        return total > 0 && liquid[i] > 0
            ? liquid[i] / total * (SolutionVapour.OrganicPa(solute.Key, [.. solvents.Select((part, j) => (part.Key, liquid[j]))], point.TemperatureK) ?? 0)
            : 0;
    }
}
