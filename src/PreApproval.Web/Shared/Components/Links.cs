using Microsoft.AspNetCore.Components;

namespace PreApproval.Web.Shared.Components;

/// <summary>Addresses inside the application.</summary>
public static class Links
{
    /// <summary>A place on the page that is being shown. The base address of the document is the root, so that a bare fragment would leave the page.</summary>
    public static string Here(NavigationManager navigation, string id)
    {
        ArgumentNullException.ThrowIfNull(navigation);
        return new Uri(navigation.Uri).PathAndQuery + "#" + id;
    }

    /// <summary>True for an address that stays on this server.</summary>
    public static bool IsLocal([System.Diagnostics.CodeAnalysis.NotNullWhen(true)] string? address) =>
        address is ['/', ..] && (address.Length == 1 || address[1] is not ('/' or '\\')) && !address.Any(char.IsControl);

    public static string Procedure(Guid id) => $"/procedures/{id}";

    /// <summary>The explorer of a revision; null step: the hottest closed one.</summary>
    public static string Explore(Guid id, int number, string? step) =>
        $"{Revision(id, number)}/explore{(step is null ? "" : "?step=" + Uri.EscapeDataString(step))}";

    /// <summary>The card to print for the bench.</summary>
    public static string BenchCard(Guid id, int number) => $"{Revision(id, number)}/card";

    public static string Revision(Guid id, int number) => $"/procedures/{id}/revisions/{number}";
}
