namespace PreApproval.Hazards.Plans;

/// <content>What the declared reactions of a step do.</content>
public static partial class Walk
{
    private sealed partial class Walker
    {
        private Reaction[] Declared(Step step)
        {
            Reaction[] declared = [];
            for (var index = 0; index < plan.Reactions.Count; index++)
            {
                if (string.Equals(plan.Reactions[index].Step, step.Id, StringComparison.Ordinal))
                {
                    declared = [.. declared, plan.Reactions[index]];
                }
            }

            return declared;
        }

        /// <summary>Lets the declared reactions happen in a vessel: the gas they make, and what their heat can do.</summary>
        private (IReadOnlyList<GasMade> Gases, ReactionHeat? Heat) React(int index, Reaction[] reactions, RunningVessel vessel) =>
            reactions.Length == 0 ? ([], null) : ReactAll(index, reactions, vessel);

        private (IReadOnlyList<GasMade> Gases, ReactionHeat? Heat) ReactAll(int index, Reaction[] reactions, RunningVessel vessel)
        {
            var before = vessel.Snapshot;
            var heats = new List<(double HeatJPerMol, double? Mol, double? Accumulation)>();
            var found = new List<Energy.FoundHeat>();
            var gases = reactions.SelectMany(reaction => React(index, reaction, vessel, heats, found)).ToArray();
            return (gases, ReactionHeat.Of(heats, before, vessel.TemperatureK) is { } heat ? heat.With(found) : null);
        }

        private IEnumerable<GasMade> React(int index, Reaction reaction, RunningVessel vessel, List<(double HeatJPerMol, double? Mol, double? Accumulation)> heats, List<Energy.FoundHeat> foundHeats)
        {
            foreach (var absent in reaction.Consumes.Where(consumed => !vessel.Holds(consumed.MaterialId)))
            {
                Issue(WalkIssueKind.ReactionPartnerAbsent, index, $"the declared reaction consumes “{absent.MaterialId}”, of which nothing is left in “{vessel.Vessel.Id}”");
            }

            var extent = Extent(index, reaction, vessel);
            if (reaction.HeatJPerMol is { } joulePerMol)
            {
                var limiting = reaction.Consumes.FirstOrDefault(consumed => string.Equals(consumed.MaterialId, plan.LimitingMaterial, StringComparison.Ordinal));
                heats.Add((joulePerMol, extent * (limiting?.Equivalents ?? 1), reaction.Accumulation));
            }
            else if (vessel.Closing is not null && Energy.ReactionHeatSource.Of(reaction, plan) is { } found)
            {
                // shut in, what is looked up makes pressure as much as what is stated
                heats.Add((found.JPerMol, extent, reaction.Accumulation));
                foundHeats.Add(found);
            }

            foreach (var consumed in reaction.Consumes)
            {
                vessel.Consume(consumed.MaterialId, extent * consumed.Equivalents);
            }

            foreach (var made in reaction.Produces)
            {
                var mol = extent * made.Equivalents;
                if ((made.State ?? made.Substance.Known?.PhaseAt298K) == Substances.Phase.Gas)
                {
                    ledger.Produce(made.Substance, mol);
                    ledger.GiveOff(made.Substance, mol);
                    yield return new GasMade(made.Substance, mol);
                }
                else
                {
                    vessel.Produce(made.Substance, mol);
                }
            }
        }

        private double? Extent(int index, Reaction reaction, RunningVessel vessel)
        {
            double? extent = null;
            foreach (var consumed in reaction.Consumes)
            {
                var available = vessel.Available(consumed.MaterialId);
                if (available is null || consumed.Equivalents <= 0)
                {
                    continue;
                }

                extent = Math.Min(extent ?? double.PositiveInfinity, available.Value / consumed.Equivalents);
            }

            extent ??= plan.LimitingMaterial is { } limiting ? vessel.Available(limiting) : null;
            extent ??= plan.Scale is Amount.Mol scale ? scale.Moles : null;
            if (extent is null)
            {
                issues.Add(new WalkIssue(WalkIssueKind.ReactionExtentUnknown, index, null, "the amount the declared reaction turns over cannot be had"));
            }

            return extent;
        }
    }
}
