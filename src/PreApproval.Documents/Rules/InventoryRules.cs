using FluentValidation;
using PreApproval.Documents.Inventory;

namespace PreApproval.Documents.Rules;

/// <summary>What must hold of an entry of the inventory beyond its form: credible values, and a rating only with what shows it.</summary>
internal static class InventoryRules
{
    private static readonly VesselValidator Vessel = new();
    private static readonly InventoryVesselValidator Evidence = new();
    private static readonly PlaceValidator Place = new();
    private static readonly InventoryAgentValidator Agent = new();

    public static IReadOnlyList<Fault> Check(InventoryContent content) => content switch
    {
        InventoryVessel vessel => [.. DocumentRules.Faults(Vessel.Validate(vessel.Vessel)), .. DocumentRules.Faults(Evidence.Validate(vessel.Vessel))],
        InventoryPlace place => DocumentRules.Faults(Place.Validate(place.Place)),
        InventoryAgent agent => DocumentRules.Faults(Agent.Validate(agent)),
        _ => throw new InvalidOperationException($"{content.GetType().Name} is no entry of an inventory."),
    };

    private sealed class InventoryVesselValidator : AbstractValidator<VesselEntry>
    {
        /// <summary>A copy in a procedure says before it which vessel and version it came from, and a text has 8000 characters at most.</summary>
        private const int LongestEvidence = 2_000;

        public InventoryVesselValidator() => RuleFor(vessel => vessel.RatingEvidence)
            .Must((vessel, evidence) => evidence is not null || vessel.Rating is null)
            .WithMessage("is missing: say what shows the rating, for instance \"engraved on the vessel\"")
            .Must(evidence => evidence is null || evidence.Length <= LongestEvidence)
            .WithMessage($"has more than {LongestEvidence} characters");
    }

    private sealed class InventoryAgentValidator : AbstractValidator<InventoryAgent>
    {
        public InventoryAgentValidator() => RuleFor(agent => agent.CheckedOn).CredibleDate();
    }
}
