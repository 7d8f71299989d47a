using Microsoft.Playwright;
using PreApproval.Browser.Tests.Hosting;
using PreApproval.Web.Administration;

namespace PreApproval.Browser.Tests;

/// <summary>By keyboard alone: focus goes where the work goes on, never to nowhere.</summary>
[Trait("kind", "browser")]
public class EditorFocusTests(DemoApp app, Hosting.Browser browser)
{
    [Fact]
    public async Task Add_ByKeyboard_FocusesTheFirstNewField()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("By keyboard");
        await PressAsync(mira, "Add a material");
        await Assertions.Expect(mira.Field("/materials/0/id")).ToBeFocusedAsync();
        await PressAsync(mira, "Add a vessel");
        await Assertions.Expect(mira.Field("/vessels/0/id")).ToBeFocusedAsync();
        await PressAsync(mira, "Add a step");
        await Assertions.Expect(mira.Field("/steps/0/action")).ToBeFocusedAsync();
        await PressAsync(mira, "Add a safeguard");
        await Assertions.Expect(mira.Field("/safeguards/0/control")).ToBeFocusedAsync();
        await PressAsync(mira, "Add a reaction");
        await Assertions.Expect(mira.Field("/reactions/0/step")).ToBeFocusedAsync();
        await PressAsync(mira, "Add what is consumed");
        await Assertions.Expect(mira.Field("/reactions/0/consumes/0/material")).ToBeFocusedAsync();
    }

    [Fact]
    public async Task Remove_ByKeyboard_FocusesTheNeighbourAndThenTheAddButton()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("Removed by keyboard");
        foreach (int row in new[] { 0, 1, 2 })
        {
            await PressAsync(mira, "Add a vessel");
            await Assertions.Expect(mira.Field($"/vessels/{row}/id")).ToBeFocusedAsync();
        }

        await PressAsync(mira, "Remove: v2");
        await Assertions.Expect(mira.Field("/vessels/1")).ToBeFocusedAsync();
        await Assertions.Expect(mira.Field("/vessels/1/id")).ToHaveValueAsync("v3");
        await PressAsync(mira, "Remove: v3");
        await Assertions.Expect(mira.Field("/vessels/0")).ToBeFocusedAsync();
        await PressAsync(mira, "Remove: v1");
        await Assertions.Expect(mira.Page.GetByRole(AriaRole.Button, new() { Name = "Add a vessel" })).ToBeFocusedAsync();
    }

    [Fact]
    public async Task Move_ToTheTopByKeyboard_KeepsTheFocusOnTheRow()
    {
        await using Visitor mira = await Visitor.ArriveAsync(app, browser, DemoGroup.Mira);
        await mira.StartEmptyAsync("Moved by keyboard");
        foreach (int row in new[] { 0, 1, 2 })
        {
            await PressAsync(mira, "Add a vessel");
            await Assertions.Expect(mira.Field($"/vessels/{row}/id")).ToBeFocusedAsync();
        }

        await PressAsync(mira, "Move up: v3");
        await Assertions.Expect(Button(mira, "Move up: v3")).ToBeFocusedAsync();
        await PressAsync(mira, "Move up: v3");
        await Assertions.Expect(Button(mira, "Move down: v3")).ToBeFocusedAsync();
        await Assertions.Expect(mira.Field("/vessels/0/id")).ToHaveValueAsync("v3");
    }

    private static ILocator Button(Visitor visitor, string name) => visitor.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    private static async Task PressAsync(Visitor visitor, string name)
    {
        await Button(visitor, name).FocusAsync();
        await visitor.Page.Keyboard.PressAsync("Enter");
    }
}
