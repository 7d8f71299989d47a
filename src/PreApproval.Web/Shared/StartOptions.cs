using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>The first person of an installation.</summary>
/// <param name="Group">Name of the group that is made.</param>
/// <param name="UserName">To sign in with.</param>
/// <param name="Name">As printed on signatures.</param>
/// <param name="Roles">Lead, administrator or both.</param>
public sealed record FirstPerson(string Group, string UserName, string Name, IReadOnlyList<GroupRole> Roles);

/// <summary>What the command line asks for. Everything written as <c>--name=value</c> is a setting and goes to the configuration.</summary>
/// <param name="Migrate">Bring the schema up to date and stop.</param>
/// <param name="Setup">Make the first group and person and stop; null: no.</param>
/// <param name="DemoAnyway">The demo may run on a named database or for others to reach.</param>
/// <param name="Settings">Arguments for the configuration.</param>
public sealed record StartOptions(bool Migrate, FirstPerson? Setup, bool DemoAnyway, IReadOnlyList<string> Settings)
{
    public const string Usage = """
        PreApproval.Web [migrate] [--demo] [--data DIR] [--urls URL] [--Setting:Name=value ...]
        PreApproval.Web setup --group NAME --user NAME --name "Printed Name" [--role lead|administrator] [--data DIR]

          migrate        bring the schema of ConnectionStrings__PreApproval up to date and stop;
                         connects as the owner of ConnectionStrings__PreApprovalOwner
          setup          make the first group and its first person, print the password once and stop;
                         without --role the person is both lead and administrator
          --demo         fill an empty database with an invented group and print its sign-ins
          --demo-anyway  with --demo: even on a named database, or where others reach it
          --data DIR     keep the data of the private database in DIR
          --urls URL     listen there (default http://127.0.0.1:5080)

        Without ConnectionStrings__PreApproval a private PostgreSQL server is started.
        """;

    private static readonly string[] Needed = ["--group", "--user", "--name"];

    private static readonly string[] WithValue = ["--data", "--urls", "--group", "--user", "--name", "--role"];

    /// <summary>Reads the arguments. False with a sentence when one is not understood.</summary>
    public static bool TryParse(IReadOnlyList<string> args, out StartOptions options, out string error)
    {
        ArgumentNullException.ThrowIfNull(args);
        HashSet<string> commands = new(StringComparer.Ordinal);
        Dictionary<string, string> person = new(StringComparer.Ordinal);
        List<string> settings = [];
        bool demoAnyway = false;
        error = "";
        for (int i = 0; i < args.Count; i++)
        {
            string argument = args[i];
            switch (argument)
            {
                case "migrate" or "setup":
                    commands.Add(argument);
                    break;
                case "--demo":
                    settings.Add("--demo=true");
                    break;
                case "--demo-anyway":
                    demoAnyway = true;
                    break;
                case "--data" or "--urls" when HasValue(args, i):
                    settings.Add($"{argument}={args[++i]}");
                    break;
                case "--group" or "--user" or "--name" or "--role" when HasValue(args, i):
                    person[argument] = args[++i];
                    break;
                default:
                    if (WithValue.Contains(argument, StringComparer.Ordinal))
                    {
                        error = $"{argument} needs a value.";
                    }
                    else if (argument.StartsWith("--", StringComparison.Ordinal) && argument.Contains('=', StringComparison.Ordinal))
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

        FirstPerson? setup = error.Length == 0 ? SetupOf(commands, person, out error) : null;
        options = new StartOptions(commands.Contains("migrate"), setup, demoAnyway, settings);
        return error.Length == 0;
    }

    private static bool HasValue(IReadOnlyList<string> args, int i) => i + 1 < args.Count && !args[i + 1].StartsWith('-');

    private static FirstPerson? SetupOf(HashSet<string> commands, Dictionary<string, string> person, out string error)
    {
        error = "";
        if (!commands.Contains("setup"))
        {
            error = person.Count > 0 ? $"{person.Keys.First()} belongs to setup." : "";
            return null;
        }

        GroupRole[] roles = person.GetValueOrDefault("--role") switch
        {
            null => [GroupRole.Lead, GroupRole.Administrator],
            "lead" => [GroupRole.Lead],
            "administrator" => [GroupRole.Administrator],
            _ => [],
        };
        error = commands.Contains("migrate") ? "Run migrate and setup one after the other."
            : roles.Length == 0 ? "--role is lead or administrator."
            : Needed.FirstOrDefault(n => !person.ContainsKey(n)) is { } missing ? $"setup needs {missing}."
            : "";
        return error.Length == 0 ? new FirstPerson(person["--group"], person["--user"], person["--name"], roles) : null;
    }
}
