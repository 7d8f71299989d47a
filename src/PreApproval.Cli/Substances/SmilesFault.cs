using System.Buffers;
using PreApproval.Hazards.Structures;

namespace PreApproval.Cli.Substances;

/// <summary>Where a word that may be meant as a SMILES cannot be read as one.</summary>
internal static class SmilesFault
{
    private static readonly SearchValues<char> Sure = SearchValues.Create("()=#[]@");

    // atoms that need no bracket, ring digits, bonds and dots: C1CC is meant as a structure, cyclopropane is not
    private static readonly SearchValues<char> Possible = SearchValues.Create("BCFINOPSlrbcnops0123456789%-+/\\.");

    /// <summary>The character at fault and what is wrong there, to go on a sentence; empty where nothing looks like a structure.</summary>
    public static string Of(TypedStructure? structure) =>
        structure?.Error is { } error && LooksLikeSmiles(structure.Smiles) ? $"; read as a structure, character {error.Position + 1}: {error.Message}" : "";

    private static bool LooksLikeSmiles(string text) =>
        !text.Contains(' ', StringComparison.Ordinal)
        && (text.AsSpan().ContainsAny(Sure) || (!text.AsSpan().ContainsAnyExcept(Possible) && text.Any(char.IsAsciiLetter) && text.Any(char.IsAsciiDigit)));
}
