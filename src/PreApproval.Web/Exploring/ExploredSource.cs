namespace PreApproval.Web.Exploring;

/// <summary>What is explored: a draft by its author, or a revision by anybody of the group.</summary>
/// <param name="ProcedureId">The procedure.</param>
/// <param name="Revision">Number of the revision; null: the draft.</param>
/// <param name="Title">Of that document.</param>
/// <param name="Words">Which one it is.</param>
/// <param name="IsAuthor">True for the author.</param>
public sealed record ExploredSource(Guid ProcedureId, int? Revision, string Title, string Words, bool IsAuthor)
{
    /// <summary>A revision never changes, and only its author edits a draft.</summary>
    public bool MayCarryBack => IsAuthor && Revision is null;
}
