using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Mixtures;

/// <summary>One component of a mixture.</summary>
/// <param name="Substance">What.</param>
/// <param name="MoleFraction">Mole fraction of the whole, from 0 to 1.</param>
public readonly record struct MixtureComponent(Substance Substance, double MoleFraction);

/// <summary>
/// A liquid of given composition, sorted once: components that share mole fractions (UNIFAC groups on file), volatiles without groups, which
/// count as liquids of their own, and salts and the like without vapour, which are left out of the mole fractions. Immutable.
/// </summary>
public sealed class LiquidMixture
{
    private static readonly string[] ActivitySources = ["fredenslund1975", "unifac-published"];

    private readonly double[] _mixed;

    /// <param name="parts">Each substance once; fractions from 0, not all 0. They are divided by their sum.</param>
    /// <exception cref="ArgumentException">No part, a negative or non-finite fraction, a sum of 0, or a substance named twice.</exception>
    public LiquidMixture(IReadOnlyList<MixtureComponent> parts)
    {
        var sum = SumOf(parts);
        var normal = new MixtureComponent[parts.Count];
        for (var index = 0; index < normal.Length; index++)
        {
            normal[index] = parts[index] with { MoleFraction = parts[index].MoleFraction / sum };
        }

        Parts = normal;
        Span<int> room = normal.Length <= 64 ? stackalloc int[normal.Length] : new int[normal.Length];
        var rest = Chosen(normal, room, static part => !LeavesNoVapour(part.Substance));
        Span<int> place = normal.Length <= 64 ? stackalloc int[normal.Length] : new int[normal.Length];
        Mixing = rest.Length == 1 ? rest.ToArray() : Chosen(normal, place, static part => !LeavesNoVapour(part.Substance) && part.Substance.UnifacGroups is not null).ToArray();

        // in one order whatever was typed first, so that a permutation changes no iteration
        SortByKey(Mixing, normal);
        Apart = Mixing.Length == rest.Length ? [] : Chosen(normal, place, static part => !LeavesNoVapour(part.Substance) && part.Substance.UnifacGroups is null).ToArray();
        LeftOut = rest.Length == normal.Length ? [] : Chosen(normal, place, static part => LeavesNoVapour(part.Substance)).ToArray();
        if (Mixing.Length > 1)
        {
            var groups = new IReadOnlyDictionary<int, int>[Mixing.Length];
            for (var i = 0; i < groups.Length; i++)
            {
                groups[i] = normal[Mixing[i]].Substance.UnifacGroups!.Value;
            }

            Model = Unifac.TryCreate(groups, out var gaps);
            Gaps = gaps;
        }

        double total = 0;
        foreach (var index in Mixing)
        {
            total += normal[index].MoleFraction;
        }

        _mixed = new double[Mixing.Length];
        for (var i = 0; i < _mixed.Length; i++)
        {
            _mixed[i] = total > 0 ? normal[Mixing[i]].MoleFraction / total : 0;
        }

        Held = rest.Length > 1 ? HeldAmong(Model is null && Mixing.Length > 1 ? rest : Apart, normal) : [];
        Notes = Mixing.Length == normal.Length && Gaps.Count == 0 && Held.Count == 0 ? [] : [.. CompositionNotes()];
    }

    /// <summary>Components in the order given; fractions sum to 1.</summary>
    public IReadOnlyList<MixtureComponent> Parts { get; }

    /// <summary>Pairs of groups without published interaction parameters; the bound then stands in.</summary>
    public IReadOnlyList<string> Gaps { get; } = [];

    /// <summary>Dissolved gases (hydrogen chloride and the like) that no model here represents: no pressure can be had.</summary>
    public IReadOnlyList<Substance> Held { get; }

    /// <summary>What a reader must know of how the composition was taken.</summary>
    public IReadOnlyList<string> Notes { get; }

    /// <summary>Indices, among the parts, of what shares mole fractions: the order of the fractions of two liquids.</summary>
    public IReadOnlyList<int> MixingParts => Mixing;

    internal int[] Mixing { get; }

    /// <summary>Indices of volatiles without groups.</summary>
    internal int[] Apart { get; }

    /// <summary>Indices of what leaves no vapour and has no groups.</summary>
    internal int[] LeftOut { get; }

    internal Unifac? Model { get; }

    /// <summary>Mole fractions of <see cref="Mixing"/> among themselves.</summary>
    internal IReadOnlyList<double> Mixed => _mixed;

    /// <summary>Keys of the sources of the activity model; none for one substance.</summary>
    internal IReadOnlyList<string> ModelSources => Model is null ? [] : ActivitySources;

    /// <summary>
    /// Activity coefficients at a temperature in K of the composition as given, one liquid or not, in the order of the parts;
    /// null for a component without groups or with missing parameters.
    /// </summary>
    public IReadOnlyList<double?> ActivityCoefficientsAt(double temperatureK)
    {
        var result = new double?[Parts.Count];
        if (Mixing.Length == 1 && Apart.Length == 0)
        {
            result[Mixing[0]] = 1;
        }
        else if (Model is not null && _mixed.Sum() > 0)
        {
            var gamma = Model.ActivityCoefficients(temperatureK, _mixed);
            for (var i = 0; i < Mixing.Length; i++)
            {
                result[Mixing[i]] = gamma[i];
            }
        }

        return result;
    }

    /// <summary>Activities (mole fraction times activity coefficient, at equilibrium of the liquids) at a temperature in K.</summary>
    /// <param name="temperatureK">Temperature in K.</param>
    /// <param name="maySplit">False: taken as one liquid without looking.</param>
    /// <param name="model">Work space of a search over temperature, from <see cref="Model"/>; it is moved to the temperature.</param>
    /// <param name="activities">Room for the answer of a search, in the order of the parts; null: the answer gets its own.</param>
    internal LiquidState At(double temperatureK, bool maySplit = true, Unifac.UnifacAtTemperature? model = null, double[]? activities = null)
    {
        activities ??= new double[Parts.Count];
        Array.Clear(activities);
        var bound = false;
        foreach (var index in Apart)
        {
            activities[index] = Parts[index].MoleFraction > 0 ? 1 : 0;
            bound |= Parts[index].MoleFraction > 0;
        }

        if (Mixing.Length == 1)
        {
            activities[Mixing[0]] = Parts[Mixing[0]].MoleFraction > 0 ? 1 : 0;
            return new LiquidState(activities, bound ? LiquidModel.Bound : LiquidModel.Pure, []);
        }

        if (Model is null || _mixed.Sum() <= 0)
        {
            foreach (var index in Mixing)
            {
                activities[index] = Parts[index].MoleFraction > 0 ? 1 : 0;
            }

            return new LiquidState(activities, LiquidModel.Bound, []);
        }

        model ??= Model.Passing(temperatureK);
        model.MoveTo(temperatureK);
        var oneLiquid = true;
        var split = maySplit ? LiquidSplit.Find(model, _mixed, out oneLiquid) : null;
        if (split is null && !oneLiquid)
        {
            foreach (var index in Mixing)
            {
                activities[index] = Parts[index].MoleFraction > 0 ? 1 : 0;
            }

            return new LiquidState(activities, LiquidModel.Bound, []);
        }

        double[] x = split is null ? _mixed : (double[])split[0].MoleFractions;
        Span<double> log = stackalloc double[x.Length];
        model.LogActivityCoefficients(x, log);
        for (var i = 0; i < x.Length; i++)
        {
            activities[Mixing[i]] = x[i] * Math.Exp(log[i]);
        }

        var kind = split switch
        {
            null => LiquidModel.OneLiquid,
            { Length: 2 } => LiquidModel.TwoLiquids,
            _ => LiquidModel.MoreLiquids,
        };
        return new LiquidState(activities, bound ? LiquidModel.Bound : kind, split ?? []);
    }

    private static double SumOf(IReadOnlyList<MixtureComponent> parts)
    {
        double sum = 0;
        for (var index = 0; index < parts.Count; index++)
        {
            sum += parts[index].MoleFraction;
            if (!(parts[index].MoleFraction >= 0))
            {
                throw new ArgumentException("Mole fractions are 0 or more, and not all 0.", nameof(parts));
            }

            for (var before = 0; before < index; before++)
            {
                if (string.Equals(parts[before].Substance.Key, parts[index].Substance.Key, StringComparison.Ordinal))
                {
                    throw new ArgumentException("A substance is named twice.", nameof(parts));
                }
            }
        }

        return sum > 0 && double.IsFinite(sum) ? sum : throw new ArgumentException("Mole fractions are 0 or more, and not all 0.", nameof(parts));
    }

    /// <summary>The places of the parts that fulfil a condition, in the room given.</summary>
    private static Span<int> Chosen(MixtureComponent[] parts, Span<int> room, Predicate<MixtureComponent> condition)
    {
        var count = 0;
        for (var index = 0; index < parts.Length; index++)
        {
            if (condition(parts[index]))
            {
                room[count++] = index;
            }
        }

        return room[..count];
    }

    private static void SortByKey(int[] places, MixtureComponent[] parts)
    {
        for (var index = 1; index < places.Length; index++)
        {
            var place = places[index];
            var at = index;
            for (; at > 0 && string.CompareOrdinal(parts[places[at - 1]].Substance.Key, parts[place].Substance.Key) > 0; at--)
            {
                places[at] = places[at - 1];
            }

            places[at] = place;
        }
    }

    private static Substance[] HeldAmong(ReadOnlySpan<int> places, MixtureComponent[] parts)
    {
        List<Substance>? held = null;
        foreach (var place in places)
        {
            if (SealedCharge.IsHeld(parts[place].Substance))
            {
                (held ??= []).Add(parts[place].Substance);
            }
        }

        return held is null ? [] : [.. held];
    }

    /// <summary>True for what has no vapour worth counting and no groups to share mole fractions by.</summary>
    private static bool LeavesNoVapour(Substance substance) =>
        substance.UnifacGroups is null && (substance.Involatile || (substance.PhaseAt298K == Phase.Solid && VapourPressure.At(substance, 298.15).Volatility == Volatility.Unknown));

    private IEnumerable<string> CompositionNotes()
    {
        foreach (var index in LeftOut)
        {
            yield return $"{Name(index)} leaves no vapour and is left out of the mole fractions: what it does to the others is not counted.";
        }

        foreach (var index in Apart)
        {
            yield return $"{Name(index)} has no UNIFAC groups on file: it counts as a liquid of its own, at its full vapour pressure.";
        }

        if (Gaps.Count > 0)
        {
            yield return $"UNIFAC has no published interaction parameters for {string.Join(", ", Gaps)}: every component counts as a liquid of its own, at its full vapour pressure.";
        }

        if (Held.Count > 0)
        {
            yield return $"No model on file represents {ImmiscibleBound.Names(Held)} dissolved in these liquids: use its measured partial pressure.";
        }
    }

    private string Name(int index) => Parts[index].Substance.Identity.Name;
}

/// <summary>Activities at one temperature.</summary>
/// <param name="Activities">In the order of the parts.</param>
/// <param name="Model">How they were had.</param>
/// <param name="Liquids">The liquids where there is more than one, among the components that share mole fractions.</param>
internal readonly record struct LiquidState(double[] Activities, LiquidModel Model, LiquidPhase[] Liquids);
