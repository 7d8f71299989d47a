using System.CommandLine;
using PreApproval.Cli.Comparing;
using PreApproval.Cli.Inputs;
using PreApproval.Cli.Mixtures;
using PreApproval.Cli.Output;
using PreApproval.Cli.Pairs;
using PreApproval.Cli.Screening;
using PreApproval.Cli.Substances;
using PreApproval.Cli.Vessels;

namespace PreApproval.Cli;

/// <summary>The commands of <c>preapproval</c>.</summary>
internal static class CommandLine
{
    private static readonly string[] Awaited = ["verify"];

    /// <summary>Runs one command and returns its exit code.</summary>
    public static int Run(string[] args, Streams streams)
    {
        ParseResult parsed = Root(streams).Parse(args, new ParserConfiguration { ResponseFileTokenReplacer = null });
        if (parsed.Errors.Count > 0)
        {
            var problem = new Problem("The command cannot be read", string.Join(' ', parsed.Errors.Select(error => error.Message)) + " See preapproval --help.", []);
            problem.Write(streams.Error, args.Contains("--json", StringComparer.Ordinal));
            return ExitCode.Unusable;
        }

        return parsed.Invoke(new InvocationConfiguration { Output = streams.Output, Error = streams.Error, EnableDefaultExceptionHandler = false });
    }

    private static RootCommand Root(Streams streams)
    {
        var root = new RootCommand("Screens planned chemistry procedures. Needs no database. Exit codes: 0 clear, 3 flagged, 1 a verification failed, 2 unusable input.");
        root.Add(OfFiles("screen", "Screens procedure documents.", "Procedure documents, or - for a JSON array of them on standard input.", streams, ScreenCommand.Answer));
        root.Add(OfFiles("vessel", "Computes a closed vessel over temperatures.", "Closed vessels as JSON, or - for a JSON array of them on standard input.", streams, VesselCommand.Answer));
        root.Add(OfFiles("mixture", "Computes what a liquid mixture gives off and when that burns.", "Liquid mixtures as JSON, or - for a JSON array of them on standard input.", streams, MixtureCommand.Answer));
        root.Add(Substance(streams));
        root.Add(Compare(streams));
        root.Add(Pair(streams));
        foreach (string name in Awaited)
        {
            root.Add(NotYet(name, streams));
        }

        return root;
    }

    private static Command OfFiles(string name, string description, string filesDescription, Streams streams, Func<ReadOnlyMemory<byte>, Answer> answer)
    {
        var files = new Argument<string[]>("FILE") { Description = filesDescription, Arity = ArgumentArity.OneOrMore };
        files.Validators.Add(RefuseUnknownOptions);
        Option<bool> json = Json();
        var command = new Command(name, description) { files, json };
        command.SetAction(parsed =>
        {
            bool asJson = parsed.GetValue(json);
            return InputSource.Files(parsed.GetRequiredValue(files), streams.Input) switch
            {
                { Value: { } batch } => batch.Run(answer, streams, asJson),
                { Error: var problem } => problem!.Refuse(streams, asJson),
            };
        });
        return command;
    }

    private static Command Substance(Streams streams)
    {
        var names = new Argument<string[]>("SUBSTANCE") { Description = "CAS number, name or SMILES, or - for a JSON array of {\"cas\"}, {\"name\"} or {\"smiles\"} on standard input.", Arity = ArgumentArity.OneOrMore };
        names.Validators.Add(RefuseUnknownOptions);
        var at = new Option<double>("--at") { Description = "Temperature of the vapour pressure in °C.", DefaultValueFactory = _ => SubstanceCommand.UsualTemperatureC, CustomParser = SubstanceCommand.ParseTemperature, HelpName = "CELSIUS" };
        Option<bool> json = Json();
        var command = new Command("substance", "Shows what is known of a substance, with sources.") { names, at, json };
        command.SetAction(parsed =>
        {
            bool asJson = parsed.GetValue(json);
            double temperatureC = parsed.GetValue(at);
            if (TypedTemperature.Fault(temperatureC) is not null)
            {
                return new Problem("The temperature is not usable", "--at takes a temperature in °C from -273.15 (excluded) to 2726.85.", []).Refuse(streams, asJson);
            }

            return InputSource.Words(parsed.GetRequiredValue(names), streams.Input) switch
            {
                { Value: { } batch } => batch.Run(item => SubstanceCommand.Answer(item, temperatureC), streams, asJson),
                { Error: var problem } => problem!.Refuse(streams, asJson),
            };
        });
        return command;
    }

    private static Command Compare(Streams streams)
    {
        var before = new Argument<string>("BEFORE") { Description = "The earlier or source procedure document." };
        var after = new Argument<string>("AFTER") { Description = "The later procedure document." };
        before.Validators.Add(RefuseUnknownOptions);
        after.Validators.Add(RefuseUnknownOptions);
        Option<bool> json = Json();
        var command = new Command("compare", "Shows which hazards a procedure introduces, removes, raises or lowers against another.") { before, after, json };
        command.SetAction(parsed =>
        {
            bool asJson = parsed.GetValue(json);
            (Input old, Input now) = (InputSource.File(parsed.GetRequiredValue(before)), InputSource.File(parsed.GetRequiredValue(after)));
            return new Batch([new Input("the comparison", default, null)], false).Run(_ => CompareCommand.Answer(old, now), streams, asJson);
        });
        return command;
    }

    private static Command Pair(Streams streams)
    {
        var names = new Argument<string[]>("SUBSTANCE") { Description = "Two or more: CAS number, name or SMILES, a named solution, air, glass or another material of construction.", Arity = ArgumentArity.OneOrMore };
        names.Validators.Add(RefuseUnknownOptions);
        Option<bool> json = Json();
        var command = new Command("pair", "Tells what the named substances do to each other, two by two.") { names, json };
        command.SetAction(parsed => new Batch([new Input("the substances", default, null)], false).Run(_ => PairCommand.Answer(parsed.GetRequiredValue(names)), streams, parsed.GetValue(json)));
        return command;
    }

    private static Command NotYet(string name, Streams streams)
    {
        var rest = new Argument<string[]>("ARGUMENTS") { Arity = ArgumentArity.ZeroOrMore };
        Option<bool> json = Json();
        var command = new Command(name, "Not available yet.") { rest, json };
        command.TreatUnmatchedTokensAsErrors = false;
        command.SetAction(parsed => new Problem("Not available yet", $"The command '{name}' is not available yet.", []).Refuse(streams, parsed.GetValue(json)));
        return command;
    }

    /// <summary>A misspelt option would otherwise be taken for a file.</summary>
    private static void RefuseUnknownOptions(System.CommandLine.Parsing.ArgumentResult result)
    {
        foreach (System.CommandLine.Parsing.Token token in result.Tokens.Where(token => token.Value.StartsWith("--", StringComparison.Ordinal)))
        {
            result.AddError($"There is no option '{token.Value}'.");
        }
    }

    private static Option<bool> Json() => new("--json") { Description = "Writes JSON instead of a table." };
}
