using PreApproval.Web.Drafting.Editing;

namespace PreApproval.Web.Tests;

public class TypedNumberTests
{
    private static readonly string[] Amounts = ["mL", "g", "mmol", "mg", "mol", "L", "kg", "µL", "µmol"];

    [Theory]
    [InlineData("1.5", "1.5", null)]
    [InlineData("1,5", "1.5", null)]
    [InlineData("0,125", "0.125", null)]
    [InlineData("1,0005", "1.0005", null)]
    [InlineData("1.000", "1.000", null)]
    [InlineData(".5", "0.5", null)]
    [InlineData("5.", "5", null)]
    [InlineData("007", "7", null)]
    [InlineData("+3", "3", null)]
    [InlineData("−20", "-20", null)]
    [InlineData("1e-3", "1e-3", null)]
    [InlineData("5 mL", "5", "mL")]
    [InlineData("5ml", "5", "mL")]
    [InlineData("250 ul", "250", "µL")]
    [InlineData("2,5 mmol", "2.5", "mmol")]
    public void Read_ANumberAsPeopleWriteIt_GivesNumberAndUnit(string typed, string number, string? unit) =>
        Assert.Equal(new TypedNumber(number, unit), TypedNumber.Read(typed, Amounts));

    [Theory]
    [InlineData("1,000")] // one, or one thousand: nobody can tell
    [InlineData("1,000 mL")]
    [InlineData("1.000,5")]
    [InlineData("5 mbar")]
    [InlineData("5 Mol")] // letter case is not guessed at
    [InlineData("a few")]
    [InlineData("5 mL of it")]
    [InlineData(",")]
    [InlineData("")]
    public void Read_WhatIsNoNumberHere_StaysAsTyped(string typed) =>
        Assert.Equal(new TypedNumber(typed, null), TypedNumber.Read(typed, Amounts));

    [Fact]
    public void Read_MillipascalWhereMegapascalIsOffered_StaysAsTyped() =>
        Assert.Equal(new TypedNumber("5 mPa", null), TypedNumber.Read("5 mPa", ["bar", "kPa", "MPa"]));
}
