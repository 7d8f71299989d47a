using System.Globalization;
using PreApproval.Hazards.Substances;

namespace PreApproval.Reference.Tests;

/// <summary>Values computed outside the project with open reference libraries; each file names library and version in its first line.</summary>
internal static class ReferenceValues
{
    public static IEnumerable<string[]> Read(string file)
    {
        using var reader = new StreamReader(typeof(ReferenceValues).Assembly.GetManifestResourceStream("Values/" + file)!);
        return reader.ReadToEnd().Split('\n').Skip(2).Where(l => l.Length > 0).Select(l => l.Split('\t')).ToList();
    }

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    public static Substance ByCas(string cas) =>
        Catalog.Default.TryFindByCas(cas, out var substance) ? substance : throw new ArgumentException(cas, nameof(cas));

    public static Substance ByName(string name) =>
        Catalog.Default.TryFindByName(name, out var substance) ? substance : throw new ArgumentException(name, nameof(name));

    public static void Near(double expected, double actual, double relative) =>
        Assert.True(Math.Abs((actual / expected) - 1) <= relative, string.Create(CultureInfo.InvariantCulture, $"expected {expected}, got {actual}, off by {(actual / expected) - 1:P3}"));
}
