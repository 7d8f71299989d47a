using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;
namespace PreApproval.Hazards.Vessels;

/// <content>What of the charge mixes, stays apart, is dissolved or takes room only.</content>
internal sealed partial class SealedCharge
{
    private void SortAll(ClosedVesselInput input, List<ChargedPart> mixing, List<ChargedPart> apart, List<ChargedPart> room)
    {
        if (!IsMerged(input.Contents))
        {
            foreach (var part in Merged(input.Contents))
            {
                Sort(part, input.FillTemperatureK, mixing, apart, room);
            }

            return;
        }

        for (var index = 0; index < input.Contents.Count; index++)
        {
            Sort(new ChargedPart(input.Contents[index].Substance, input.Contents[index].Mol), input.FillTemperatureK, mixing, apart, room);
        }
    }

    /// <summary>True where <see cref="Merged"/> gives the same again.</summary>
    private static bool IsMerged(IReadOnlyList<ChargedSubstance> contents)
    {
        for (var index = 0; index < contents.Count; index++)
        {
            if (!(contents[index].Mol > 0) || (index > 0 && string.CompareOrdinal(contents[index - 1].Substance.Key, contents[index].Substance.Key) >= 0))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Each substance once, in the order of the keys.</summary>
    private static List<ChargedPart> Merged(IReadOnlyList<ChargedSubstance> contents)
    {
        var parts = new List<ChargedPart>(contents.Count);
        for (var index = 0; index < contents.Count; index++)
        {
            var (substance, mol) = contents[index];
            if (!(mol > 0))
            {
                continue;
            }

            var at = 0;
            while (at < parts.Count && string.CompareOrdinal(parts[at].Substance.Key, substance.Key) < 0)
            {
                at++;
            }

            if (at < parts.Count && string.Equals(parts[at].Substance.Key, substance.Key, StringComparison.Ordinal))
            {
                parts[at] = parts[at] with { Mol = parts[at].Mol + mol };
            }
            else
            {
                parts.Insert(at, new ChargedPart(substance, mol));
            }
        }

        return parts;
    }

    private void Sort(ChargedPart part, double fillK, List<ChargedPart> mixing, List<ChargedPart> apart, List<ChargedPart> room)
    {
        var substance = part.Substance;
        var name = substance.Identity.Name;
        var atFilling = VapourPressure.At(substance, fillK);
        if (LiquidVolume.At(substance, fillK).Quality == Quality.Assumed && substance.DensityKgPerM3 is null && atFilling.Volatility is not Volatility.Gas)
        {
            (_warnings ??= []).Add($"The density of {name} is not on file: 1000 kg/m³ is assumed.");
        }

        switch (atFilling.Volatility)
        {
            case Volatility.None:
                room.Add(part);
                break;
            case Volatility.Unknown when substance.PhaseAt298K == Phase.Gas:
                (_warnings ??= []).Add($"The vapour pressure of {name} is not on file: all of it counts as gas that does not dissolve.");
                goto case Volatility.Gas;
            case Volatility.Gas:
                (_chargedGases ??= []).Add(part);
                ChargedGasMol += part.Mol;
                break;
            case Volatility.Unknown:
                room.Add(part);
                if (substance.PhaseAt298K == Phase.Liquid)
                {
                    (_missing ??= []).Add(substance.Key);
                    (_warnings ??= []).Add($"The vapour pressure of {name} is not on file: its vapour is not in the pressure.");
                }

                break;
            case Volatility.Condensable:
                var solid = substance.PhaseAt298K == Phase.Solid && substance.MeltingPointK?.Value > MeltsEarlyK;
                (solid || substance.UnifacGroups is null ? apart : mixing).Add(part);
                break;
        }
    }

    /// <summary>Takes out what the published data on solutions cover; the activity model keeps what it represents better.</summary>
    private List<ChargedPart> TakeDissolved(List<ChargedPart> mixing, List<ChargedPart> apart, List<ChargedPart> room)
    {
        if (mixing.Exists(MayBeCovered) || apart.Exists(MayBeCovered) || room.Exists(MayBeCovered) || ChargedGases.Any(MayBeCovered))
        {
            return TakeCovered(mixing, apart, room);
        }

        ChargedGasMol = ChargedGases.Sum(static part => part.Mol);
        return NoParts;
    }

    private static bool MayBeCovered(ChargedPart part) =>
        part.Substance is { Involatile: false, Key: not SolutionVapour.Water and var key } && (SolutionVapour.HasAqueous(key) || (IsHeld(part.Substance) && SolutionVapour.HasOrganic(key)));

    private List<ChargedPart> TakeCovered(List<ChargedPart> mixing, List<ChargedPart> apart, List<ChargedPart> room)
    {
        var water = mixing.Find(static part => part.Substance.Key is SolutionVapour.Water).Mol;
        var others = mixing.Where(static part => part.Substance is { PhaseAt298K: Phase.Liquid, Key: not SolutionVapour.Water } && !IsHeld(part.Substance)).ToArray();
        bool Covered(ChargedPart part) =>
            part.Substance is { Involatile: false, Key: not SolutionVapour.Water and var key }
            && (water > 0 && SolutionVapour.HasAqueous(key)
                ? IsHeld(part.Substance) || part.Substance.PhaseAt298K != Phase.Gas || (others.Length == 0 && part.Mol < DiluteRatio * water)
                : others.Length > 0 && IsHeld(part.Substance) && SolutionVapour.HasOrganic(key));

        // UNIFAC keeps the amines, and ammonia beside other liquids; a table of its own knows ammonia in water better
        var held = mixing.FindAll(part => IsHeld(part.Substance) && Covered(part));
        var complete = held.Count == 0 || mixing.Count < 2 || Unifac.TryCreate([.. mixing.Select(static part => part.Substance.UnifacGroups!.Value)], out _) is not null;
        var taken = held.FindAll(part => !complete || (others.Length == 0 && AqueousVapour.Of(part.Substance.Key) is not null));
        mixing.RemoveAll(taken.Contains);
        foreach (var list in (List<ChargedPart>[])[apart, room, _chargedGases ??= []])
        {
            var covered = list.FindAll(Covered);
            list.RemoveAll(covered.Contains);
            taken.AddRange(covered);
        }

        ChargedGasMol = ChargedGases.Sum(static part => part.Mol);
        foreach (var part in taken.Where(part => _missing?.Remove(part.Substance.Key) == true))
        {
            _warnings?.RemoveAll(warning => warning.Contains($"vapour pressure of {part.Substance.Identity.Name} is not on file", StringComparison.Ordinal));
        }

        return [.. taken.OrderBy(static part => part.Substance.Key, StringComparer.Ordinal)];
    }

    private bool HasSameLiquids(SealedCharge other)
    {
        if (Mixing.Length != other.Mixing.Length || Dissolved.Length != other.Dissolved.Length)
        {
            return false;
        }

        for (var index = 0; index < Mixing.Length; index++)
        {
            if (!ReferenceEquals(Mixing[index].Substance, other.Mixing[index].Substance))
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsNoSolid(ChargedPart part) => part.Substance.PhaseAt298K != Phase.Solid;

    private static Substance[] HeldOf(ChargedPart[] uncovered, ChargedPart[] apart)
    {
        List<Substance>? held = null;
        AddHeld(ref held, uncovered);
        AddHeld(ref held, apart);
        return held is null ? [] : [.. held];
    }

    private static void AddHeld(ref List<Substance>? held, ChargedPart[] parts)
    {
        foreach (var part in parts)
        {
            if (IsHeld(part.Substance))
            {
                (held ??= []).Add(part.Substance);
            }
        }
    }
}
