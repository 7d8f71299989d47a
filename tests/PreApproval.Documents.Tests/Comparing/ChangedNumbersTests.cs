using System.Globalization;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Tests.Comparing;

/// <summary>Two numbers that are told as different look different.</summary>
public sealed class ChangedNumbersTests
{
    [Theory]
    [InlineData(2.1, 3.2, "2.1", "3.2")]
    [InlineData(2.104, 2.096, "2.104", "2.096")]
    [InlineData(2.14, 2.06, "2.14", "2.06")]
    [InlineData(120.01, 120.04, "120.01", "120.04")]
    public void Of_NumbersThatDiffer_HasAsManyDigitsAsShowIt(double before, double after, string was, string becomes)
    {
        var numbers = ChangedNumbers.Of(Change(before, null, after, null), Write, 2);

        Assert.Equal((was, becomes, false), (numbers.Before, numbers.After, numbers.IsStill));
    }

    [Fact]
    public void Of_NumbersThatAreTheSame_KeepsTheUsualDigitsAndSaysSo() =>
        Assert.Equal(new ChangedNumbers("2.1", "2.1", null, null), ChangedNumbers.Of(Change(2.1234567, null, 2.1234567, null), Write, 2));

    [Fact]
    public void Of_OtherLimits_NamesThem() =>
        Assert.Equal(new ChangedNumbers("120", "120", "150", "200"), ChangedNumbers.Of(Change(120, 150, 120, 200), Write, 3));

    private static string Write(double number, int digits) => number.ToString($"G{digits.ToString(CultureInfo.InvariantCulture)}", CultureInfo.InvariantCulture);

    private static HazardChange Change(double before, double? limitBefore, double after, double? limitAfter) => new()
    {
        Hazard = Hazard.Temperature,
        Quantity = "invented",
        Effect = ChangeEffect.Raised,
        Before = Number(before, limitBefore),
        After = Number(after, limitAfter),
    };

    private static Evidence Number(double value, double? limit) => new() { Name = "invented", Value = value, Unit = "1", Limit = limit, Model = "invented", Sources = [], Quality = Quality.Assumed };
}
