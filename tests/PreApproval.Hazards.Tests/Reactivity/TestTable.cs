namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>Tables of examples embedded in the tests: a header line, then one row a line; lines beginning with # are comments.</summary>
internal static class TestTable
{
    public static IReadOnlyList<string[]> Rows(string file)
    {
        using var stream = typeof(TestTable).Assembly.GetManifestResourceStream(file)!;
        using var reader = new StreamReader(stream);
        return [.. reader.ReadToEnd().Split('\n').Where(static line => line.Length > 0 && line[0] != '#').Skip(1).Select(static line => line.Split('\t'))];
    }
}
