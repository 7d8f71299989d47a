using Microsoft.EntityFrameworkCore.Design;

namespace PreApproval.Storage;

/// <summary>For <c>dotnet ef migrations add</c>, which needs no database.</summary>
internal sealed class DesignTimeFactory : IDesignTimeDbContextFactory<PreApprovalDbContext>
{
    public PreApprovalDbContext CreateDbContext(string[] args) => new(StorageOptions.For("Host=design-time"));
}
