using System.Globalization;
using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents;

namespace PreApproval.Cli.Inputs;

/// <summary>One input: its bytes, or why they cannot be had.</summary>
/// <param name="Name">For messages: a file name, or a place in standard input.</param>
/// <param name="Bytes">Empty with a problem.</param>
/// <param name="Problem">Null for readable input.</param>
internal sealed record Input(string Name, ReadOnlyMemory<byte> Bytes, Problem? Problem);

/// <summary>The inputs of one run. An array answers with an array, a bad element with its problem in place.</summary>
internal sealed record Batch(IReadOnlyList<Input> Inputs, bool IsArray)
{
    public int Run(Func<ReadOnlyMemory<byte>, Answer> answerOf, Streams streams, bool asJson)
    {
        Answer[] answers = [.. Inputs.Select(input => input.Problem is { } problem ? problem : Guarded(answerOf, input))];
        if (asJson)
        {
            WriteJson(answers, streams);
        }
        else
        {
            WriteText(answers, streams);
        }

        return answers.Any(answer => answer.Problem is not null) ? ExitCode.Unusable
            : answers.Any(answer => answer.IsFlagged) ? ExitCode.Flagged
            : ExitCode.Clear;
    }

    /// <summary>A fault of the program in one input must not take the answers of the others with it.</summary>
    private static Answer Guarded(Func<ReadOnlyMemory<byte>, Answer> answerOf, Input input)
    {
        try
        {
            return answerOf(input.Bytes);
        }
#pragma warning disable CA1031 // the boundary of the program: whatever went wrong is told in place, and the exit code says so
        catch (Exception e)
#pragma warning restore CA1031
        {
            return new Problem("Internal error", $"{input.Name}: the program failed on this input; please report it with the input. {e.GetType().Name}: {e.Message}", []);
        }
    }

    private void WriteJson(Answer[] answers, Streams streams)
    {
        if (IsArray)
        {
            streams.Output.WriteLine(JsonText.Of(new JsonArray([.. answers.Select(answer => answer.Problem?.ToJson() ?? answer.Json)])));
        }
        else if (answers is [{ Json: { } json }])
        {
            streams.Output.WriteLine(JsonText.Of(json));
        }

        (string Name, Problem Problem, int Index)[] bad = [.. answers.Index()
            .Where(answer => answer.Item.Problem is not null)
            .Select(answer => (Inputs[answer.Index].Name, answer.Item.Problem!, answer.Index))];
        if (bad.Length > 0)
        {
            (IsArray ? Summary(bad, answers.Length) : bad[0].Problem).Write(streams.Error, asJson: true);
        }
    }

    private static Problem Summary((string Name, Problem Problem, int Index)[] bad, int all) => new(
        "Unusable input",
        string.Create(CultureInfo.InvariantCulture, $"{bad.Length} of {all} inputs cannot be used: {string.Join(", ", bad.Select(entry => entry.Name))}."),
        [.. bad.SelectMany(entry => entry.Problem.Faults.DefaultIfEmpty(new Fault("", entry.Problem.Detail))
            .Select(fault => new Fault(string.Create(CultureInfo.InvariantCulture, $"/{entry.Index}{fault.Path}"), fault.Message)))]);

    private void WriteText(Answer[] answers, Streams streams)
    {
        foreach ((int index, Answer answer) in answers.Index())
        {
            if (answer.Problem is { } problem)
            {
                (Inputs.Count > 1 ? problem with { Title = $"{Inputs[index].Name}: {problem.Title}" } : problem).Write(streams.Error, asJson: false);
                continue;
            }

            if (Inputs.Count > 1)
            {
                streams.Output.WriteLine($"== {Inputs[index].Name}");
            }

            streams.Output.WriteLine(answer.Text.TrimEnd());
            if (index + 1 < answers.Length)
            {
                streams.Output.WriteLine();
            }
        }
    }
}
