using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Confinement;

/// <summary>What the screens of this folder share in wording and in trying a change.</summary>
internal static class Findings
{
    public static Evidence Number(string name, double value, string unit, double? limit, string model, Quality quality, params string[] sources) => new()
    {
        Name = name,
        Value = value,
        Unit = unit,
        Limit = limit,
        Model = model,
        Sources = References.Full(sources),
        Quality = quality,
    };

    public static string Step(int index, string member) => $"/steps/{index.ToString(CultureInfo.InvariantCulture)}/{member}";

    public static string Litres(double m3) => m3 < 0.9995e-3 ? Wording.Text(Math.Round(m3 * 1e6, MidpointRounding.AwayFromZero)) + " mL" : Wording.Figures(m3 * 1e3) + " L";

    public static string[] Ids(IEnumerable<Content> contents) =>
        MaterialIds.Of(contents);

    /// <summary>The offers that, each made alone, leave the screen without this finding.</summary>
    public static IReadOnlyList<Clearing> Tried(IScreen screen, Finding finding, ScreeningContext context, params Clearing[] offers) =>
        [.. offers.Where(offer => Clears(screen, finding, context, offer))];

    private static bool Clears(IScreen screen, Finding finding, ScreeningContext context, Clearing offer)
    {
        var plan = Clearings.Apply(context.Plan, offer);
        var trial = new ScreeningContext(plan, context.Policy, Walk.Follow(plan, context.Policy)) { IsTrial = true };
        return !screen.Find(trial).Any(other => string.Equals(other.Code, finding.Code, StringComparison.Ordinal)
            && string.Equals(other.Vessel, finding.Vessel, StringComparison.Ordinal)
            && other.Steps.Any(step => finding.Steps.Contains(step, StringComparer.Ordinal)));
    }
}
