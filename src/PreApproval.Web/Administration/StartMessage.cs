using System.Text;

namespace PreApproval.Web.Administration;

/// <summary>What the demo prints when it is ready: for the person at the console, not for the log.</summary>
public static class StartMessage
{
    public static string For(IEnumerable<string> addresses)
    {
        ArgumentNullException.ThrowIfNull(addresses);
        var text = new StringBuilder();
        text.AppendLine().AppendLine("PreApproval is ready:");
        foreach (string address in addresses)
        {
            text.Append("  ").AppendLine(address);
        }

        text.AppendLine().AppendLine("This is a demo. Group, people and procedures are invented. Everybody's password: " + DemoGroup.Password);
        foreach (DemoPerson person in DemoGroup.People)
        {
            text.Append("  ").Append(person.UserName.PadRight(8)).Append(person.Name.PadRight(20)).AppendLine(person.Part);
        }

        return text.AppendLine().Append("Stop with Ctrl+C.").ToString();
    }
}
