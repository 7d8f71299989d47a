using PreApproval.Documents.Reading;

namespace PreApproval.Documents.Comparing;

/// <summary>What a document states of a material.</summary>
internal static class MaterialStatements
{
    public static Statements Of(MaterialEntry material)
    {
        Statements all = new Statements()
            .Plain("substance", PlanWords.Of(material.Substance), PlanWords.KeyOf(material.Substance))
            .Plain("composition", Mixture(material.Mixture), material.Mixture is { } parts ? PlanWords.KeyOf(parts.Select(Key)) : null)
            .With("concentration", material.Solution?.Concentration)
            .With("in", PlanWords.Of(material.Solution?.Solvent), PlanWords.KeyOf(material.Solution?.Solvent))
            .With("amount", material.Amount)
            .With("role", material.Role is { } role ? Words.Roles.WordOf(role) : null)
            .With("form", material.Form)
            .With("opened on", material.OpenedOn)
            .With("peroxide test", material.PeroxideTest is { On: { } on, Ppm: { } ppm } ? $"{PlanWords.Number(ppm)} ppm on {on.ToString("d MMM yyyy", System.Globalization.CultureInfo.InvariantCulture)}" : null);
        return material.Substance?.Properties is { } values ? Stated(all, values) : all;
    }

    /// <summary>What the material is, whatever it is called: a substance, a solution of it, or a mixture.</summary>
    public static string KeyOf(MaterialEntry material) => material.Mixture is { } parts
        ? PlanWords.KeyOf(parts.Select(Key))
        : $"{PlanWords.KeyOf(material.Substance)} in {PlanWords.KeyOf(material.Solution?.Solvent)}";

    private static string? Mixture(IReadOnlyList<MixturePartEntry>? parts) => parts is null ? null
        : string.Join(" + ", parts.Select(static part => $"{PlanWords.Of(part.Fraction)} {PlanWords.Of(part.Substance)}".Trim()));

    private static string Key(MixturePartEntry part) => $"{PlanWords.KeyOf(part.Fraction)} {PlanWords.KeyOf(part.Substance)}";

    private static Statements Stated(Statements all, SubstanceProperties values) => all
        .Detail("stated formula", values.Formula)
        .Detail("stated molar mass", values.MolarMass)
        .Detail("stated state", values.State is { } state ? Words.States.WordOf(state) : null)
        .Detail("stated density", values.Density)
        .Detail("stated melting point", values.MeltingPoint)
        .Detail("stated boiling point", values.BoilingPoint)
        .Detail("stated flash point", values.FlashPoint)
        .Detail("stated autoignition", values.Autoignition)
        .Detail("stated lower flammable limit", values.LowerFlammableLimit)
        .Detail("stated upper flammable limit", values.UpperFlammableLimit)
        .Detail("stated vapour pressure", Antoine(values.VapourPressure));

    private static string? Antoine(AntoineEntry? equation) => equation is not { A: { } a, B: { } b, C: { } c } ? null
        : $"a {PlanWords.Number(a)}, b {PlanWords.Number(b)}, c {PlanWords.Number(c)}"
            + (equation is { PressureUnit: { } pressure, TemperatureUnit: { } temperature } ? $" ({Words.AntoinePressureUnits.WordOf(pressure)}, {Words.AntoineTemperatureUnits.WordOf(temperature)})" : "")
            + (equation is { From: { } from, To: { } to } ? $", {PlanWords.Of(from)} to {PlanWords.Of(to)}" : "");
}
