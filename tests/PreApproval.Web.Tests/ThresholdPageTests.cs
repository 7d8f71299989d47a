using System.Net;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Web.Tests.Hosting;
using PreApproval.Web.Thresholds;

namespace PreApproval.Web.Tests;

/// <summary>The pages of the group's thresholds. Only the second group's are set, so that the first keeps the defaults for the other tests.</summary>
public sealed class ThresholdPageTests(TestApp test)
{
    [Fact]
    public async Task ThresholdsPage_OfAMember_ShowsThemAndOffersNoChange()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        string page = await member.Client.GetStringAsync("/thresholds");
        Assert.Contains("TRGS 723, 5.2.3", page, StringComparison.Ordinal);
        Assert.DoesNotContain("/thresholds/edit", page, StringComparison.Ordinal);
        using HttpResponseMessage edit = await member.Client.GetAsync("/thresholds/edit");
        Assert.Equal(HttpStatusCode.Forbidden, edit.StatusCode);
    }

    [Fact]
    public async Task EditPage_Faults_KeepWhatWasTypedAndSayWhere()
    {
        using Browsing lead = await Browsing.SignInAsync(test.App, "lead");
        Dictionary<string, string> form = await FilledAsync(lead, Policy.Default);
        form["overshootK"] = "200";
        form["unratedNothingPa"] = "much";
        using HttpResponseMessage answer = await lead.SendAsync("/thresholds/edit", form);
        string page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("Unrated closed vessel: nothing up to (gauge): “much” is not a number; write for instance 0.1.", page, StringComparison.Ordinal);
        Assert.Contains("value=\"200\"", page, StringComparison.Ordinal);

        form["unratedNothingPa"] = "0,1 bar";
        using HttpResponseMessage range = await lead.SendAsync("/thresholds/edit", form);
        Assert.Contains("Overshoot of a heat source: 200 K is outside the allowed 0 to 100 K.", WebUtility.HtmlDecode(await range.Content.ReadAsStringAsync()), StringComparison.Ordinal);

        form["overshootK"] = "15";
        using HttpResponseMessage same = await lead.SendAsync("/thresholds/edit", form);
        Assert.Contains("nothing would change", await same.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    /// <summary>The clash is told before the look at the changes, with what was typed still in the fields; the second check goes on from theirs.</summary>
    [Fact]
    public async Task EditPage_SetBySomebodyElseMeanwhile_SaysSoAtTheCheck()
    {
        using HttpClient api = test.As("foreign-lead");
        using Browsing lead = await Browsing.SignInAsync(test.App, "foreign-lead");
        (Policy next, string tag) = await Policies.NextAsync(api);
        Dictionary<string, string> form = await FilledAsync(lead, (await Policies.NowAsync(api)).Policy with { FillLow = 0.03 });
        using HttpResponseMessage set = await Policies.PutAsync(api, Policies.Body(next), tag);
        Assert.True(set.IsSuccessStatusCode);

        using HttpResponseMessage check = await lead.SendAsync("/thresholds/edit", form);
        string page = WebUtility.HtmlDecode(await check.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.PreconditionFailed, check.StatusCode);
        Assert.Contains("Somebody set the thresholds since you opened this form", page, StringComparison.Ordinal);
        Assert.Contains("overshoot of a heat source", page, StringComparison.Ordinal);
        Assert.Contains($"value=\"{form["fillLow"]}\"", page, StringComparison.Ordinal);
        form["version"] = Browsing.HiddenOf(page, "check")["version"];
        form["overshootK"] = ThresholdForm.Filled(next)["overshootK"];
        using HttpResponseMessage again = await lead.SendAsync("/thresholds/edit", form);
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        Assert.Contains("Check the thresholds", await again.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task EditPage_CheckedAndSetTwice_IsOneVersion()
    {
        using HttpClient api = test.As("foreign-lead");
        (Policy next, string _) = await Policies.NextAsync(api);
        using Browsing lead = await Browsing.SignInAsync(test.App, "foreign-lead");
        Dictionary<string, string> form = await FilledAsync(lead, next with { FillLow = 0.02 });
        form["reason"] = "Small amounts\nin large tubes.";
        using HttpResponseMessage check = await lead.SendAsync("/thresholds/edit", form);
        string page = await check.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.OK, check.StatusCode);
        Assert.Contains("looser than the default", page, StringComparison.Ordinal);
        Dictionary<string, string> set = Browsing.HiddenOf(page, "set");
        Assert.Equal("66.6667", set["fillMetal"]);
        long events = await test.EventsAsync("thresholds.set");

        HttpResponseMessage[] answers = await Task.WhenAll(lead.SendAsync("/thresholds/edit", set), lead.SendAsync("/thresholds/edit", set));
        Assert.All(answers, a => Assert.Equal("/thresholds", a.Headers.Location?.OriginalString.Replace(test.App.Address.ToString().TrimEnd('/'), "", StringComparison.Ordinal)));
        Assert.Equal(events + 1, await test.EventsAsync("thresholds.set"));
        Assert.Equal(next with { FillLow = 0.02 }, (await Policies.NowAsync(api)).Policy);

        // another tab, from before: shown against what is there now
        set["key"] = Guid.CreateVersion7().ToString();
        using HttpResponseMessage stale = await lead.SendAsync("/thresholds/edit", set);
        Assert.Equal(HttpStatusCode.PreconditionFailed, stale.StatusCode);
        Assert.Contains("Somebody set the thresholds while you did.", await stale.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public void Sections_OfTheForm_HaveEveryThresholdOnce() => Assert.Equal(
        typeof(Policy).GetProperties().Where(p => p.GetMethod!.IsStatic == false).Select(p => PolicyWriter.NameOf(p.Name)).Order(StringComparer.Ordinal),
        ThresholdForm.Sections.SelectMany(s => s.Members).Order(StringComparer.Ordinal));

    [Theory]
    [InlineData("7", 0.07)]
    [InlineData("7 %", 0.07)]
    [InlineData("66,5", 0.665)]
    [InlineData("66.6667", 2.0 / 3)]
    public void ReadForm_Percent_IsTheFractionExactly(string typed, double expected)
    {
        Dictionary<string, string> fields = new(ThresholdForm.Filled(Policy.Default), StringComparer.Ordinal) { ["fillMetal"] = typed, ["fillLow"] = "5" };
        List<Shared.Components.FormError> faults = [];
        Policy? read = ThresholdForm.Read(name => fields[name], Policy.Default, faults);
        if (expected >= 0.1)
        {
            Assert.Equal(expected, read?.FillMetal);
        }
        else
        {
            Assert.Contains("7 % is outside the allowed 10 to 75 %", Assert.Single(faults).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void ReadForm_NoNumberAndOneOutOfRange_SaysBothAtOnceAndNothingOfTheUnread()
    {
        Dictionary<string, string> fields = new(ThresholdForm.Filled(Policy.Default), StringComparer.Ordinal) { ["fillMetal"] = "two thirds", ["fillGlass"] = "7", ["fillLow"] = "5" };
        List<Shared.Components.FormError> faults = [];
        Assert.Null(ThresholdForm.Read(name => fields[name], Policy.Default, faults));
        Assert.Equal("fillGlass, fillMetal", string.Join(", ", faults.Select(static fault => fault.Field).Order(StringComparer.Ordinal)));
    }

    private static async Task<Dictionary<string, string>> FilledAsync(Browsing lead, Policy policy)
    {
        Dictionary<string, string> form = await lead.FormAsync("/thresholds/edit", "check");
        foreach ((string name, string value) in ThresholdForm.Filled(policy))
        {
            form[name] = value;
        }

        form["reason"] = "A test.";
        return form;
    }
}
