namespace PreApproval.Hazards.Structures;

/// <summary>Why a line of SMILES or SMARTS cannot be read.</summary>
/// <param name="Position">Index of the character at fault, from 0; the length of the text when something is missing at its end.</param>
/// <param name="Message">What is wrong there and what would be right.</param>
public sealed record StructureError(int Position, string Message)
{
    /// <summary>The message with the place, counted from 1 as a reader counts.</summary>
    public override string ToString() => $"Character {Position + 1}: {Message}";
}
