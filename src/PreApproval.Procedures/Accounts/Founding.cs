namespace PreApproval.Procedures.Accounts;

/// <summary>A person with whom a group begins.</summary>
/// <param name="UserName">To sign in with.</param>
/// <param name="DisplayName">Printed name, as on signatures.</param>
/// <param name="Password">As typed; the password rules apply.</param>
public sealed record Founder(string UserName, string DisplayName, string Password);

/// <summary>A group as it was founded.</summary>
public sealed record FoundedGroup(Guid GroupId, Guid AdministratorId, Guid LeadId);
