namespace PreApproval.Hazards.Plans;

/// <summary>What is left of each material while the plan is followed.</summary>
internal sealed class MaterialStock(Plan plan, List<WalkIssue> issues)
{
    private const double Slack = 1e-6;

    /// <summary>Above this share of the list it is no rounding of an amount or a density. Common practice, no source.</summary>
    private const double FarAbove = 1.1;

    // by the place of the material in the plan
    private readonly double[] usedShare = new double[plan.Materials.Count];
    private readonly bool[] used = new bool[plan.Materials.Count];

    /// <summary>The materials that some step has taken.</summary>
    public IReadOnlySet<string> Used()
    {
        var ids = new HashSet<string>(used.AsSpan().Count(true), StringComparer.Ordinal);
        for (var index = 0; index < used.Length; index++)
        {
            if (used[index])
            {
                ids.Add(plan.Materials[index].Id);
            }
        }

        return ids;
    }

    /// <summary>Takes what a step asks for; without an amount, the whole remainder.</summary>
    /// <param name="use">What the step asks for.</param>
    /// <param name="stepIndex">Index of the step.</param>
    /// <param name="temperatureK">Temperature at which a volume is measured, in K; null when nothing states one.</param>
    /// <param name="roomM3">Volume of the vessel that receives it in m³; null when that is not known.</param>
    public IReadOnlyList<Content> Take(MaterialUse use, int stepIndex, double? temperatureK, double? roomM3)
    {
        if (plan.PlaceOf(use.MaterialId) is not { } place)
        {
            return [];
        }

        used[place] = true;
        var material = plan.Materials[place];
        var asked = use.Amount ?? material.Amount;
        if (asked is null)
        {
            issues.Add(new WalkIssue(WalkIssueKind.AmountNotStated, stepIndex, material.Id, $"no amount is stated for “{material.Id}”"));
            return Present(material);
        }

        var measured = new Measured(temperatureK, material.Role == Role.Gas, roomM3);
        var converted = AmountConversion.Convert(material.Composition, asked, measured);
        if (converted.Missing.Count > 0)
        {
            issues.Add(new WalkIssue(WalkIssueKind.AmountUnknown, stepIndex, material.Id, string.Join(" and ", converted.Missing)));
        }

        // a gas that the plan calls a gas needs no words
        for (var index = 0; index < converted.TakenAs.Count; index++)
        {
            var taken = converted.TakenAs[index];
            if (taken.Phase == Substances.Phase.Gas && measured.AsGas)
            {
                continue;
            }

            issues.Add(new WalkIssue(taken.Phase == Substances.Phase.Gas ? WalkIssueKind.TakenAsGas : WalkIssueKind.TakenAsLiquid, stepIndex, material.Id, taken.Words));
        }

        var factor = use.Amount is null ? TakeRemainder(place, stepIndex) : TakeShare(place, use.Amount, converted, measured, stepIndex);
        var contents = new Content[converted.Portions.Count];
        for (var index = 0; index < contents.Length; index++)
        {
            var portion = converted.Portions[index];
            contents[index] = new Content(portion.Substance, material.Id, portion.Mol * factor, portion.MassFraction);
        }

        return contents;
    }

    /// <summary>Who names 5 of 10 mL in a transfer means a part of the contents; the format reads it as rinsings.</summary>
    private string OfAMove(int stepIndex) => plan.Steps[stepIndex].Action is StepAction.Transfer or StepAction.Filter or StepAction.Discard
        ? ": a step that moves the contents moves all of them, and the materials it names are added from the list, as rinsings are; to use a part, charge that part into a vessel of its own"
        : "";

    private static Content[] Present(Material material) =>
        [.. AmountConversion.Parts(material.Composition).Select(part => new Content(part.Substance, material.Id, null, part.MassFraction))];

    private double TakeRemainder(int place, int stepIndex)
    {
        var material = plan.Materials[place];
        var left = Math.Max(0, 1 - usedShare[place]);
        usedShare[place] = 1;
        if (left <= Slack)
        {
            issues.Add(new WalkIssue(WalkIssueKind.MoreThanAvailable, stepIndex, material.Id, $"nothing is left of “{material.Id}” for this step{OfAMove(stepIndex)}"));
            return 0;
        }

        return left;
    }

    /// <summary>Keeps count of what was taken; the step gets what it says even when the list holds less, which is the cautious reading.</summary>
    private double TakeShare(int place, Amount asked, ConvertedAmount converted, Measured measured, int stepIndex)
    {
        var material = plan.Materials[place];
        if (material.Amount is null || Share(material, asked, converted, measured) is not { } share)
        {
            return 1;
        }

        var total = usedShare[place] + share;
        usedShare[place] = total;
        if (total > 1 + Slack)
        {
            issues.Add(new WalkIssue(WalkIssueKind.MoreThanAvailable, stepIndex, material.Id, $"the steps take more of “{material.Id}” than the material list holds ({Screening.Wording.Text(Math.Round(100 * total))} % of it){OfAMove(stepIndex)}") { IsFar = total > FarAbove });
        }

        return 1;
    }

    private static double? Share(Material material, Amount asked, ConvertedAmount converted, Measured measured)
    {
        var direct = (asked, material.Amount) switch
        {
            (Amount.Mass part, Amount.Mass whole) => part.Kg / whole.Kg,
            (Amount.Mol part, Amount.Mol whole) => part.Moles / whole.Moles,
            (Amount.Volume part, Amount.Volume whole) => part.M3 / whole.M3,
            _ => (double?)null,
        };
        if (direct is not null)
        {
            return direct;
        }

        var whole2 = AmountConversion.Convert(material.Composition, material.Amount!, measured);
        return converted.Portions.Zip(whole2.Portions)
            .Select(static pair => pair.First.Mol / pair.Second.Mol)
            .FirstOrDefault(static share => share is { } value && double.IsFinite(value));
    }
}
