using System.Globalization;
using FluentValidation;
using FluentValidation.Results;
using PreApproval.Documents.Reading;
using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Rules;

/// <summary>Every identifier that is named exists.</summary>
internal sealed class References
{
    private readonly ValidationContext<ProcedureDocument> _context;
    private readonly Known _materials;
    private readonly Known _vessels;
    private readonly Known _steps;

    private References(ProcedureDocument document, ValidationContext<ProcedureDocument> context)
    {
        _context = context;
        _materials = new Known("material", document.Materials.Select(material => material.Id));
        _vessels = new Known("vessel", document.Vessels.Select(vessel => vessel.Id));
        _steps = new Known("step", document.Steps.Select(step => step.Id));
    }

    public static void Check(ProcedureDocument document, ValidationContext<ProcedureDocument> context)
    {
        var references = new References(document, context);
        references.One(document.Scale?.Limiting, references._materials, "Scale.Limiting");
        foreach ((int index, StepEntry step) in document.Steps.Index())
        {
            references.One(step.Vessel, references._vessels, At("Steps", index, "Vessel"));
            references.One(step.To, references._vessels, At("Steps", index, "To"));
            // any other action has a fault of its own there
            if (step is { Action: StepAction.Transfer or StepAction.Filter, To.Length: > 0 } && string.Equals(step.To, step.Vessel, StringComparison.Ordinal))
            {
                references.Fail(At("Steps", index, "To"), "is the vessel the contents come from; name another");
            }

            references.Uses(step, index);
        }

        foreach ((int index, ReactionEntry reaction) in (document.Reactions ?? []).Index())
        {
            references.One(reaction.Step, references._steps, At("Reactions", index, "Step"));
            foreach ((int part, ConsumptionEntry consumption) in (reaction.Consumes ?? []).Index())
            {
                references.One(consumption.Material, references._materials, $"{At("Reactions", index, "Consumes")}{Index(part)}.Material");
            }
        }

        references.Each("Safeguards", document.Safeguards, safeguard => safeguard.Steps, references._steps, "Steps");
        references.Each("Waste", document.Waste, waste => waste.Materials, references._materials, "Materials");
    }

    private void Uses(StepEntry step, int index)
    {
        foreach ((int place, MaterialUseEntry use) in (step.Materials ?? []).Index())
        {
            string path = At("Steps", index, "Materials") + Index(place);
            One(use.Id, _materials, use.IsBare ? path : $"{path}.Id");
        }
    }

    private void Each<T>(string list, IReadOnlyList<T>? entries, Func<T, IReadOnlyList<string>?> idsOf, Known known, string member)
    {
        foreach ((int index, T entry) in (entries ?? []).Index())
        {
            foreach ((int place, string id) in (idsOf(entry) ?? []).Index())
            {
                One(id, known, At(list, index, member) + Index(place));
            }
        }
    }

    private void One(string? id, Known known, string path)
    {
        // With an unreadable entry in the list nobody can say that an identifier is wrong.
        if (string.IsNullOrEmpty(id) || known.IsIncomplete || known.Ids.Contains(id))
        {
            return;
        }

        string hint = NearName.Of(id, known.Ids) is { } near
            ? $"did you mean \"{near}\"?"
            : $"known: {string.Join(", ", known.Ids.Take(12).Select(name => $"\"{name}\""))}";
        Fail(path, $"no {known.What} has the id \"{Shown.Text(id)}\"; {hint}");
    }

    private void Fail(string path, string message) => _context.AddFailure(new ValidationFailure(path, message));

    private static string At(string list, int index, string member) => $"{list}{Index(index)}.{member}";

    private static string Index(int index) => string.Create(CultureInfo.InvariantCulture, $"[{index}]");

    private sealed class Known(string what, IEnumerable<string> ids)
    {
        public string What { get; } = what;

        public HashSet<string> Ids { get; } = new(ids, StringComparer.Ordinal);

        public bool IsIncomplete => Ids.Count == 0 || Ids.Contains("");
    }
}
