namespace PreApproval.Web.Shared;

/// <summary>What the command line asks for. Everything written as <c>--name=value</c> is a setting and goes to the configuration.</summary>
/// <param name="Migrate">Bring the schema up to date and stop.</param>
/// <param name="Settings">Arguments for the configuration.</param>
public sealed record StartOptions(bool Migrate, IReadOnlyList<string> Settings)
{
    public const string Usage = """
        PreApproval.Web [migrate] [--demo] [--data DIR] [--urls URL] [--Setting:Name=value ...]

          migrate      bring the schema of ConnectionStrings__PreApproval up to date and stop;
                       connects as the owner of ConnectionStrings__PreApprovalOwner
          --demo       fill an empty database with an invented group and print its sign-ins
          --data DIR   keep the data of the private database in DIR
          --urls URL   listen there (default http://127.0.0.1:5080)

        Without ConnectionStrings__PreApproval a private PostgreSQL server is started.
        """;

    /// <summary>Reads the arguments. False with a sentence when one is not understood.</summary>
    public static bool TryParse(IReadOnlyList<string> args, out StartOptions options, out string error)
    {
        ArgumentNullException.ThrowIfNull(args);
        bool migrate = false;
        List<string> settings = [];
        error = "";
        for (int i = 0; i < args.Count; i++)
        {
            string argument = args[i];
            switch (argument)
            {
                case "migrate":
                    migrate = true;
                    break;
                case "--demo":
                    settings.Add("--demo=true");
                    break;
                case "--data" or "--urls" when i + 1 < args.Count && !args[i + 1].StartsWith('-'):
                    i++;
                    settings.Add($"{argument}={args[i]}");

                    break;
                case "--data" or "--urls":
                    error = $"{argument} needs a value.";
                    break;
                default:
                    if (argument.StartsWith("--", StringComparison.Ordinal) && argument.Contains('=', StringComparison.Ordinal))
                    {
                        settings.Add(argument);
                    }
                    else
                    {
                        error = $"The argument '{argument}' is not understood.";
                    }

                    break;
            }
        }

        options = new StartOptions(migrate, settings);
        return error.Length == 0;
    }
}
