using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace PreApproval.Web.Shared.Charts;

/// <summary>The text element of SVG, whose name Razor keeps for itself.</summary>
public sealed class SvgText : ComponentBase
{
    [Parameter, EditorRequired]
    public string X { get; set; } = "";

    [Parameter, EditorRequired]
    public string Y { get; set; } = "";

    /// <summary>start, middle or end.</summary>
    [Parameter]
    public string Anchor { get; set; } = "start";

    [Parameter]
    public string? Class { get; set; }

    [Parameter, EditorRequired]
    public string Words { get; set; } = "";

    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.OpenElement(0, "text");
        builder.AddAttribute(1, "x", X);
        builder.AddAttribute(2, "y", Y);
        builder.AddAttribute(3, "text-anchor", Anchor);
        builder.AddAttribute(4, "class", Class);
        builder.AddContent(5, Words);
        builder.CloseElement();
    }
}
