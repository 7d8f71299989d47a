using System.Reflection;
using System.Text.Json.Nodes;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting;

/// <summary>An invented procedure to start from.</summary>
/// <param name="Key">Name of its file.</param>
/// <param name="Title">Title of the document.</param>
/// <param name="Purpose">Purpose of the document.</param>
/// <param name="Document">Its bytes.</param>
public sealed record Example(string Key, string Title, string Purpose, ReadOnlyMemory<byte> Document);

/// <summary>The procedures of <c>docs/examples</c>, embedded.</summary>
public static class Examples
{
    private const string Prefix = "example:";

    public static IReadOnlyList<Example> All { get; } = Load();

    private static List<Example> Load()
    {
        Assembly assembly = typeof(Examples).Assembly;
        List<Example> all = [];
        foreach (string name in assembly.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using Stream stream = assembly.GetManifestResourceStream(name)!;
            using var copy = new MemoryStream();
            stream.CopyTo(copy);
            byte[] bytes = copy.ToArray();
            JsonObject document = DocumentText.Parse(bytes);
            all.Add(new Example(name[Prefix.Length..], DocumentText.Text(document, "title"), DocumentText.Text(document, "purpose"), bytes));
        }

        return all;
    }
}
