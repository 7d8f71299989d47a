using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Tests.Screening;

public sealed class WordingTests
{
    [Theory]
    [InlineData(0, "0")]
    [InlineData(-1.5, "−1.5")]
    [InlineData(1234.5678, "1234.568")]
    [InlineData(1e-4, "0")]
    public void Text_InASentence_IsTheNumberWithItsOwnMinus(double value, string expected)
    {
        Assert.Equal(expected, Wording.Text(value));
        Assert.Equal($"[{expected}]", $"[{Wording.Text(value)}]");
    }

    [Fact]
    public void Text_MinusZero_IsZero() => Assert.Equal("0", Wording.Text(-0.0));

    [Fact]
    public void Text_LargestNumber_IsWrittenOut()
    {
        string written = Wording.Text(double.MinValue);

        Assert.Equal(310, written.Length);
        Assert.Equal(312, $"[{Wording.Text(double.MinValue)}]".Length);
    }

    [Fact]
    public void CelsiusAndBarGauge_InASentence_HaveTheirUnits() =>
        Assert.Equal("from −78 °C to 3.2 bar(g)", $"from {Wording.Celsius(195.15)} to {Wording.BarGauge(3.24e5)}");

    [Theory]
    [InlineData(new string[0], "")]
    [InlineData(new[] { "a" }, "a")]
    [InlineData(new[] { "a", "b" }, "a and b")]
    [InlineData(new[] { "a", "b", "c" }, "a, b and c")]
    public void List_InASentence_IsEnumerated(string[] names, string expected)
    {
        Assert.Equal(expected, Wording.List(names));
        Assert.Equal($"[{expected}]", $"[{Wording.List(names)}]");
    }

    [Fact]
    public void TryFormat_TooLittleRoom_WritesNothing()
    {
        Span<char> room = stackalloc char[4];

        Assert.False(Wording.Celsius(373.15).TryFormat(room, out var number, [], null));
        Assert.False(Wording.List(["one", "two"]).TryFormat(room, out var list, [], null));
        Assert.Equal((0, 0), (number, list));
    }
}
