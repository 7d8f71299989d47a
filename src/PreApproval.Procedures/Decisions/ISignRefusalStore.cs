namespace PreApproval.Procedures.Decisions;

/// <summary>A refusal to sign, counted with those like it.</summary>
/// <param name="InWindow">Of this person, revision and reason since the window began, with this one: 1 begins a window.</param>
/// <param name="Unwritten">Those of the window before that the history does not show.</param>
/// <param name="OfPerson">Of this person in all open windows of the group, with this one.</param>
public sealed record SignRefusalCount(int InWindow, int Unwritten, int OfPerson);

/// <summary>Counts refused signatures, so that a loop of them can't fill the history.</summary>
public interface ISignRefusalStore
{
    /// <summary>Counts one; refusals of one person are counted one after the other.</summary>
    Task<SignRefusalCount> CountAsync(Guid groupId, Guid procedureId, int revision, Guid accountId, string reason, DateTimeOffset at, TimeSpan window, CancellationToken cancellationToken);
}
