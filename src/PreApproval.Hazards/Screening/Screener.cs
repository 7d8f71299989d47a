using System.Globalization;
using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Exposure;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Handling;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Screening;

/// <summary>Runs every screen over a plan. Pure and thread-safe: no clock, no network, no random numbers.</summary>
public static class Screener
{
    /// <summary>Version of the engine, a constant.</summary>
    public const string EngineVersion = "1.0.0";

    private static readonly IScreen[] Screens =
    [
        new PressureScreen(),
        new TemperatureScreen(),
        new VesselCareScreen(),
        new RatingCredibilityScreen(),
        new ReliefScreen(),
        new GlassWallScreen(),
        new FullWhenWarmScreen(),
        new OpenVesselScreen(),
        new ReactionHeatScreen(),
        new NeutralisationScreen(),
        new EnergeticScreen(),
        new CryogenScreen(),
        new VacuumScreen(),
        new ThermalShockScreen(),
        new VentScreen(),
        new DelayedGasScreen(),
        new FreezingScreen(),
        new LayerScreen(),
        new FireScreen(),
        new ReactivityScreen(),
        new GasScreen(),
        new PeroxideScreen(),
        new MonomerScreen(),
        new PyrophoricScreen(),
        new SpentCatalystScreen(),
        new SpecialPoisonScreen(),
        new HealthScreen(),
        new AirborneScreen(),
        new WalkScreen(),
        new UnknownSubstanceScreen(),
        new SolutionStrengthScreen(),
        new UnattendedHeatingScreen(),
        new LostCoolingScreen(),
    ];

    // more findings than most plans have, so that their list does not grow
    private const int MostPlans = 64;

    // these look at what the others found
    private static readonly IFollowUpScreen[] FollowUps = [new SafeguardScreen(), new AttendanceScreen()];

    /// <summary>Screens a plan. Same plan and policy: same report.</summary>
    public static Report Screen(Plan plan, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(policy);
        using var models = Mixtures.Unifac.KeepModels();
        var context = new ScreeningContext(plan, policy, PossibleProducts.Noted(plan, Walk.Follow(plan, policy)));
        var findings = new List<Finding>(MostPlans);
        foreach (var screen in Screens)
        {
            foreach (var finding in screen.Find(context))
            {
                findings.Add(Clearings.WithSurfaces(OfferCheck.Worthwhile(ControlNeeds.Attach(finding, context), context), plan));
            }
        }

        foreach (var screen in FollowUps)
        {
            findings.AddRange(screen.Find(context, findings).ToArray());
        }

        var ordered = InOrder(Distinct(findings.ConvertAll(finding => Place(finding, plan)), plan));
        var sending = Sending(ordered, policy);
        return new Report
        {
            Verdict = sending.Count > 0 ? Verdict.Review : Verdict.Clear,
            Findings = ordered.ConvertAll(static entry => entry.Finding),
            ToReview = sending,
            Encounters = Strips.Of(context, ordered),
            Timeline = Timeline.Of(context),
            Coverage = CoverageList.Of(plan),
            Followed = (plan, context.Walk),
        };
    }

    private static PlacedFinding Place(Finding finding, Plan plan) => new(finding, FirstStep(finding, plan));

    private static List<PlacedFinding> Distinct(List<PlacedFinding> findings, Plan plan)
    {
        // sorted by the parts of their identifiers, equal ones are neighbours
        findings.Sort(static (one, other) => FindingIdentity.Compare(one.Finding, other.Finding));
        for (var index = 1; index < findings.Count; index++)
        {
            if (FindingIdentity.Compare(findings[index - 1].Finding, findings[index].Finding) == 0)
            {
                return [.. findings.GroupBy(static entry => entry.Finding.Id, static entry => entry.Finding, StringComparer.Ordinal).SelectMany(static group => TellApart([.. group])).Select(finding => Place(finding, plan))];
            }
        }

        return findings;
    }

    /// <summary>
    /// Two findings that say the same at the same place are one; two that differ stay two, told apart by the materials they are
    /// about, and by their order where even these are the same.
    /// </summary>
    private static IEnumerable<Finding> TellApart(IReadOnlyList<Finding> colliding)
    {
        if (colliding.Count == 1)
        {
            return colliding;
        }

        var distinct = colliding.GroupBy(static finding => finding.Statement, StringComparer.Ordinal).Select(static group => Merge([.. group])).ToArray();
        if (distinct.Length == 1)
        {
            return distinct;
        }

        return distinct.GroupBy(static finding => string.Join('+', finding.Materials), StringComparer.Ordinal)
            .SelectMany(static group => group.OrderBy(static finding => finding.Severity).ThenBy(static finding => finding.Statement, StringComparer.Ordinal)
                .Select((finding, index) => finding with { About = About(group.Key, index) }));
    }

    private static string About(string materials, int index) =>
        index == 0 && materials.Length > 0 ? materials : string.Create(CultureInfo.InvariantCulture, $"{materials}{(materials.Length > 0 ? "+" : "")}{index + 1}");

    /// <summary>Findings with one sentence at one place.</summary>
    private static Finding Merge(IReadOnlyList<Finding> same)
    {
        if (same.Count == 1)
        {
            return same[0];
        }

        var ordered = same.OrderBy(static finding => finding.Severity).ToArray();
        return ordered[0] with
        {
            Materials = [.. ordered.SelectMany(static finding => finding.Materials).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Evidence = [.. ordered.SelectMany(static finding => finding.Evidence).Distinct()],
            // what clears one of them need not clear the others
            ClearedBy = [.. ordered[0].ClearedBy.Where(offer => Array.TrueForAll(ordered, finding => finding.ClearedBy.Contains(offer)))],
            LeavesCheckUndone = Array.Exists(ordered, static finding => finding.LeavesCheckUndone),
        };
    }

    private static bool GoesToReview(Finding finding, Policy policy) => finding.Severity <= policy.ReviewFrom || finding.LeavesCheckUndone;

    private static List<string> Sending(List<PlacedFinding> ordered, Policy policy)
    {
        var sending = new List<string>();
        foreach (var (finding, _) in ordered)
        {
            if (GoesToReview(finding, policy))
            {
                sending.Add(finding.Id);
            }
        }

        return sending;
    }

    /// <summary>Worst first, then by step, then by code; the list is sorted where it stands.</summary>
    private static List<PlacedFinding> InOrder(List<PlacedFinding> findings)
    {
        findings.Sort(static (one, other) =>
        {
            // as numbers: the comparison of an enumeration boxes both
            var order = ((int)one.Finding.Severity).CompareTo((int)other.Finding.Severity);
            order = order != 0 ? order : one.FirstStep.CompareTo(other.FirstStep);
            order = order != 0 ? order : FindingIdentity.Compare(one.Finding, other.Finding);
            return order != 0 ? order : string.CompareOrdinal(one.Finding.Statement, other.Finding.Statement);
        });
        return findings;
    }

    private static int FirstStep(Finding finding, Plan plan) => finding.Steps.Count == 0 ? int.MaxValue : Position(finding.Steps[0], plan);

    private static int Position(string step, Plan plan)
    {
        for (var index = 0; index < plan.Steps.Count; index++)
        {
            if (string.Equals(plan.Steps[index].Id, step, StringComparison.Ordinal))
            {
                return index;
            }
        }

        return int.MaxValue;
    }
}

/// <summary>A finding and where in the plan it stands.</summary>
/// <param name="Finding">What was found.</param>
/// <param name="FirstStep">Place of its first step in the plan; the largest number when it names none.</param>
internal readonly record struct PlacedFinding(Finding Finding, int FirstStep);
