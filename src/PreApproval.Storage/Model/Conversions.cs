using System.Text.Json;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Storage.Model;

/// <summary>Enum members are stored by their names on the wire.</summary>
internal sealed class WireNameConverter<T>() : ValueConverter<T, string>(value => WireName.Of(value), name => WireName.Parse<T>(name))
    where T : struct, Enum;

internal sealed class HazardsConverter() : ValueConverter<IReadOnlyList<Hazard>, string[]>(
    hazards => hazards.Select(hazard => WireName.Of(hazard)).ToArray(),
    names => names.Select(name => WireName.Parse<Hazard>(name)).ToArray());

internal sealed class HazardsComparer() : ValueComparer<IReadOnlyList<Hazard>>(
    (a, b) => ReferenceEquals(a, b) || (a != null && b != null && a.SequenceEqual(b)),
    hazards => hazards.Aggregate(0, (hash, hazard) => HashCode.Combine(hash, hazard)),
    hazards => hazards.ToArray());

/// <summary>Answers belong to their decision and are only read with it; what was signed is kept beside them as exact bytes.</summary>
internal sealed class AnswersConverter() : ValueConverter<IReadOnlyList<FindingAnswer>, string>(
    answers => Write(answers),
    json => Read(json))
{
    private static string Write(IReadOnlyList<FindingAnswer> answers) =>
        JsonSerializer.Serialize(answers.Select(answer => new Stored(answer.FindingId, WireName.Of(answer.Answer), answer.Text)), JsonSerializerOptions.Web);

    private static IReadOnlyList<FindingAnswer> Read(string json) =>
        [.. JsonSerializer.Deserialize<Stored[]>(json, JsonSerializerOptions.Web)!.Select(stored => new FindingAnswer(stored.Finding, WireName.Parse<AnswerKind>(stored.Answer), stored.Text))];

    private sealed record Stored(string Finding, string Answer, string Text);
}

internal sealed class AnswersComparer() : ValueComparer<IReadOnlyList<FindingAnswer>>(
    (a, b) => ReferenceEquals(a, b) || (a != null && b != null && a.SequenceEqual(b)),
    answers => answers.Aggregate(0, (hash, answer) => HashCode.Combine(hash, answer)),
    answers => answers.ToArray());
